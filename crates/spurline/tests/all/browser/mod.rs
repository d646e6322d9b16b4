//! The pages in a real browser: headless Chromium, driven through chromedriver.
//!
//! | file | what is tried |
//! |---|---|
//! | `live` | a switch pressed on the drawing, faults by touch |
//! | `plan` | from nothing to a sound circuit; forms and text; undo; mends; places dragged |
//! | `together` | two browsers, and an editor, on one plan |
//! | `prove` | readings in, causes out, on a phone |
//! | `phone` | 360 px wide, steps with gloves, pairing |
//! | `access` | rules of a maintained checker, keyboard alone, without script |

mod access;
mod live;
mod phone;
mod plan;
mod prove;
mod together;

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use thirtyfour::prelude::*;

/// A program that is ended when the test is.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// Starts a program and waits for the line of its output that `pick` finds something in.
fn start(mut command: Command, pick: fn(&str) -> Option<String>) -> (Running, String) {
    let mut child = command
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap_or_else(|e| panic!("{command:?}: {e}; `cargo xtask ci` installs what is missing"));
    let output = child.stdout.take().expect("piped");
    let running = Running(child);
    let found = BufReader::new(output)
        .lines()
        .map_while(Result::ok)
        .find_map(|l| pick(&l));
    (running, found.expect("the program says where it listens"))
}

/// Serves a plan, or a folder of them; gives its address, that of the plan if it is one.
fn page(path: &Path) -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_spurline"));
    command.arg("open").arg(path).args(["--port", "0"]);
    let (running, address) = start(command, |line| {
        let from = line.find("http://")?;
        line[from..].split_whitespace().next().map(str::to_owned)
    });
    match path.file_stem().filter(|_| path.is_file()) {
        Some(name) => (running, format!("{address}{}/", name.display())),
        None => (running, address),
    }
}

fn chromedriver() -> (Running, String) {
    let mut command = Command::new("chromedriver");
    command.arg("--port=0");
    start(command, |line| {
        let port = line.split("started successfully on port ").nth(1)?;
        Some(format!("http://localhost:{}", port.trim_end_matches('.')))
    })
}

/// Runs a test with a browser of this width.
fn with_browser(width: u32, test: impl AsyncFnOnce(&WebDriver) -> WebDriverResult<()>) {
    let (_driver, address) = chromedriver();
    let runtime = tokio::runtime::Runtime::new().expect("a runtime");
    runtime.block_on(async {
        let mut caps = DesiredCapabilities::chrome();
        let profile = tempfile::tempdir().expect("a folder");
        for arg in [
            "--headless".to_owned(),
            "--no-sandbox".into(),
            "--disable-gpu".into(),
            "--disable-background-networking".into(),
            "--no-first-run".into(),
            format!("--user-data-dir={}", profile.path().display()),
            format!("--window-size={width},1000"),
        ] {
            caps.add_arg(&arg).expect("an argument");
        }
        let browser = WebDriver::new(&address, caps).await.expect("a browser");
        let outcome = test(&browser).await;
        browser.quit().await.expect("it ends");
        outcome.expect("the page answers");
    });
}

/// A screen of this width; headless windows are never narrower than 500 px, so a phone is emulated.
async fn as_wide(browser: &WebDriver, width: u32) -> WebDriverResult<()> {
    let phone = serde_json::json!({ "width": width, "height": 780, "deviceScaleFactor": 2, "mobile": true });
    let cdp = browser.cdp();
    cdp.send_raw("Emulation.setDeviceMetricsOverride", phone)
        .await?;
    Ok(())
}

fn example(name: &str, folder: &Path) -> PathBuf {
    let plan = folder.join(name);
    std::fs::copy(crate::run::examples().join(name), &plan).expect("copied");
    plan
}

fn farm(folder: &Path) -> PathBuf {
    example("farm.toml", folder)
}

fn read(plan: &Path) -> String {
    std::fs::read_to_string(plan).expect("read")
}

/// Waits until something is there.
async fn there(browser: &WebDriver, css: &str) -> WebDriverResult<WebElement> {
    browser.query(By::Css(css)).first().await
}

/// Waits until something says this.
async fn says(browser: &WebDriver, css: &str, words: &str) -> WebDriverResult<()> {
    let within = browser.query(By::Css(css)).with_filter({
        let words = words.to_owned();
        move |e: WebElement| {
            let words = words.clone();
            async move {
                // What is closed says it too; what was just put in place of another is asked again.
                let text = e.prop("textContent").await;
                Ok(text.is_ok_and(|t| t.unwrap_or_default().contains(&words)))
            }
        }
    });
    within.first().await.map(|_| ())
}

/// Clicks something once it is there; again where the page put another in its place meanwhile.
async fn press(browser: &WebDriver, css: &str) -> WebDriverResult<()> {
    for _ in 0..STALE {
        let pressed = there(browser, css).await?.click().await;
        if !is_stale(&pressed) {
            return pressed;
        }
    }
    there(browser, css).await?.click().await
}

/// So often a page may be put in place of another while somebody acts on it.
const STALE: usize = 5;

fn is_stale<T>(result: &WebDriverResult<T>) -> bool {
    matches!(result, Err(e) if format!("{e:?}").contains("StaleElementReference"))
}

/// Types into a field instead of what is in it.
async fn answer(browser: &WebDriver, css: &str, words: &str) -> WebDriverResult<()> {
    for _ in 0..STALE {
        let typed = typed(browser, css, words).await;
        if !is_stale(&typed) {
            return typed;
        }
    }
    typed(browser, css, words).await
}

async fn typed(browser: &WebDriver, css: &str, words: &str) -> WebDriverResult<()> {
    let field = there(browser, css).await?;
    field.send_keys(Key::Control + "a").await?;
    match words {
        "" => field.send_keys(Key::Delete + "").await,
        words => field.send_keys(words).await,
    }
}

/// Chooses from a field's list.
async fn choose(browser: &WebDriver, css: &str, value: &str) -> WebDriverResult<()> {
    there(browser, css).await?;
    press(browser, &format!("{css} option[value='{value}']")).await
}

/// What the plan says once it says something of this; waits a while.
fn until(plan: &Path, words: &str) -> String {
    for _ in 0..100 {
        let text = read(plan);
        if text.contains(words) {
            return text;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    panic!("{words} is not in the plan:\n{}", read(plan))
}
