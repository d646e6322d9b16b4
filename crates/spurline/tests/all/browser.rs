//! The page in a real browser: headless Chromium, driven through chromedriver.

use std::io::{BufRead, BufReader};
use std::path::Path;
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

fn page(plan: &Path) -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_spurline"));
    command.arg("open").arg(plan).args(["--port", "0"]);
    start(command, |line| {
        let from = line.find("http://")?;
        line[from..].split_whitespace().next().map(str::to_owned)
    })
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
            format!("--window-size={width},900"),
        ] {
            caps.add_arg(&arg).expect("an argument");
        }
        let browser = WebDriver::new(&address, caps).await.expect("a browser");
        let outcome = test(&browser).await;
        browser.quit().await.expect("it ends");
        outcome.expect("the page answers");
    });
}

fn farm(folder: &Path) -> std::path::PathBuf {
    let plan = folder.join("farm.toml");
    let example = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/farm.toml");
    std::fs::copy(example, &plan).expect("copied");
    plan
}

#[test]
fn the_page_shows_report_and_diagram_and_follows_the_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    with_browser(1280, async |browser| {
        browser.goto(&address).await?;
        let title = browser.find(By::Css("h1")).await?.text().await?;
        assert_eq!(title, "Orchard ute: rack work lamps and transfer pump");
        let wires = browser.find_all(By::Css("#wires tbody tr")).await?;
        assert_eq!(wires.len(), 22);
        let drawing = browser.find(By::Css("#diagram svg")).await?;
        assert!(drawing.is_displayed().await?);

        let text = std::fs::read_to_string(&plan).expect("read");
        std::fs::write(&plan, text.replace("ways  = 4", "wys = 4")).expect("written");
        browser.refresh().await?;
        let said = browser.find(By::Css("main")).await?.text().await?;
        assert!(said.contains("did you mean “ways”?"), "{said}");
        Ok(())
    });
}

#[test]
fn a_phone_scrolls_tables_not_the_page() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_page, address) = page(&farm(folder.path()));
    with_browser(800, async |browser| {
        // Headless windows are never narrower than 500 px: the phone is emulated.
        let phone = serde_json::json!({ "width": 360, "height": 780, "deviceScaleFactor": 2, "mobile": true });
        let cdp = browser.cdp();
        cdp.send_raw("Emulation.setDeviceMetricsOverride", phone)
            .await?;
        let struck = "live?supply=driving&on=0.1&fault=wire-to-body&at=W1.7";
        for path in ["", "live", struck, "plan", "plan/before"] {
            browser.goto(format!("{address}{path}")).await?;
            let script = "return [document.documentElement.scrollWidth, window.innerWidth]";
            let widths: Vec<f64> = browser.execute(script, Vec::new()).await?.convert()?;
            assert_eq!(widths, [360.0, 360.0], "{path}");
        }
        Ok(())
    });
}

/// The figures of a load as `check --json` has them.
fn checked(plan: &Path, load: &str) -> (String, f64, f64) {
    let out = Command::new(env!("CARGO_BIN_EXE_spurline"))
        .arg("check")
        .arg(plan)
        .arg("--json")
        .output()
        .expect("it runs");
    let json: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
    let loads = json["loads"].as_array().expect("loads");
    let found = loads.iter().find(|l| l["name"] == load).expect("the load");
    let number = |key: &str| found[key].as_f64().expect("a number");
    let state = found["state"].as_str().expect("a state").to_owned();
    (state, number("volts"), number("amps"))
}

#[test]
fn a_switch_is_pressed_on_the_drawing_and_the_figures_are_those_of_check() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (state, volts, amps) = checked(&plan, "E1.1");
    assert_eq!(state, "driving, everything on");
    let (_page, address) = page(&plan);
    with_browser(1280, async |browser| {
        browser.goto(format!("{address}live")).await?;
        let now = async || browser.find(By::Css("#state .state")).await?.text().await;
        assert_eq!(now().await?, "parked, switches off");
        // The page itself stays: what is set on it outlives every press.
        browser.execute("window.stays = true", Vec::new()).await?;
        let press = async |of: &str, then: &str| -> WebDriverResult<()> {
            browser.find(By::Css(of)).await?.click().await?;
            browser
                .query(By::XPath(format!("//*[@class='state'][.='{then}']")))
                .first()
                .await?;
            Ok(())
        };
        press("nav.choice a[href*='driving']", "driving, switches off").await?;
        press("#state svg a[data-of='S1']", "driving, rack lamps on").await?;
        press("#state svg a[data-of='S2']", "driving, everything on").await?;
        let cells = browser
            .find_all(By::Css("#live-loads tr[data-of='E1.1'] td.figure"))
            .await?;
        let read = async |i: usize| -> WebDriverResult<f64> {
            Ok(cells[i].text().await?.parse().expect("a number"))
        };
        assert!((read(0).await? - volts).abs() < 0.006, "{volts}");
        assert!((read(1).await? - amps).abs() < 0.006, "{amps}");
        // A wire that is pointed at says what it carries: both lamps' current.
        let wire = browser
            .find(By::Css("#state svg g[data-of='W1.7']"))
            .await?;
        let says = wire.find(By::Css("title")).await?;
        let says = says.prop("textContent").await?.unwrap_or_default();
        assert!(says.contains(&format!("{:.2} A", 2.0 * amps)), "{says}");
        let stays = browser.execute("return window.stays", Vec::new()).await?;
        assert_eq!(stays.json(), &serde_json::json!(true));
        // Back leads to the state before.
        browser.back().await?;
        browser
            .query(By::XPath("//*[@class='state'][.='driving, rack lamps on']"))
            .first()
            .await?;
        // Nothing is asked of another host.
        browser
            .goto(format!("{address}live?supply=driving&on=0.1"))
            .await?;
        let policy = "return performance.getEntriesByType('resource').map(r => r.name).filter(n => !n.startsWith(location.origin))";
        let others = browser.execute(policy, Vec::new()).await?;
        assert_eq!(others.json(), &serde_json::json!([]));
        Ok(())
    });
}

#[test]
fn two_browsers_on_one_plan_lose_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    let address = format!("{address}plan");
    with_browser(800, async |browser| {
        browser.goto(&address).await?;
        let first = browser.window().await?;
        let second = browser.new_tab().await?;
        // Types at the end of the text and keeps it.
        let keep = async |words: &str| -> WebDriverResult<()> {
            let text = browser.find(By::Css("textarea")).await?;
            text.send_keys(Key::Control + Key::End).await?;
            text.send_keys(words).await?;
            browser.find(By::Css("button")).await?.click().await
        };
        browser.switch_to_window(second).await?;
        browser.goto(&address).await?;
        keep("# from the second").await?;
        browser.switch_to_window(first).await?;
        keep("# from the first").await?;
        let title = browser.query(By::XPath("//h1[contains(., 'has changed')]"));
        title.first().await?;
        let said = browser.find(By::Css("main")).await?.text().await?;
        assert!(said.contains("# from the second"), "{said}");
        // Both put together are kept.
        keep("\n# from the second").await?;
        let kept = browser.query(By::XPath("//h1[contains(., 'farm.toml')]"));
        kept.first().await?;
        let text = std::fs::read_to_string(&plan).expect("read");
        assert!(text.contains("# from the first") && text.contains("# from the second"));
        Ok(())
    });
}
