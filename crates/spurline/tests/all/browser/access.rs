//! For everybody: the rules of a maintained checker, the keyboard alone, a page without script.

use super::*;

/// The checker's script: axe-core, as a package for Python brings it (`cargo xtask ci` installs it).
fn checker() -> String {
    let venv = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/python-venv/lib");
    let pythons = std::fs::read_dir(&venv).into_iter().flatten().flatten();
    let mut scripts = pythons.map(|p| {
        p.path()
            .join("site-packages/axe_playwright_python/axe.min.js")
    });
    let script = scripts.find(|s| s.is_file());
    let script = script.unwrap_or_else(|| {
        panic!(
            "no axe.min.js below {}: `cargo xtask ci` installs it",
            venv.display()
        )
    });
    read(&script)
}

const PAGES: [&str; 19] = [
    "",
    "?supply=driving&on=0.1&fault=wire-to-body&at=W1.7&why=W1.7",
    "?beside=text",
    "?beside=vehicle",
    "?edit=circuit%5Brack+lamps%5D",
    "?edit=%2Bcircuit",
    "report",
    "supply",
    "lists",
    "steps",
    "step?n=6",
    "pack",
    "compare",
    "loom",
    "prove",
    "test?n=12",
    "?edit=place%5Brack%5D",
    "?edit=supply",
    "?edit=%2Bday",
];

/// What the checker finds on the page that is shown, by its rules of WCAG 2 A and AA.
async fn violations(browser: &WebDriver, checker: &str) -> WebDriverResult<Vec<String>> {
    browser.execute(checker, Vec::new()).await?;
    let script = "const done = arguments[0]; axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa'] }).then(r => done(r.violations.map(v => v.id + ': ' + v.nodes.slice(0, 3).map(n => n.html.slice(0, 160) + ' — ' + n.failureSummary.slice(0, 200)).join(' | '))), e => done([String(e)]))";
    browser.execute_async(script, Vec::new()).await?.convert()
}

#[test]
fn names_contrast_and_roles_in_light_and_dark() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_page, address) = page(&farm(folder.path()));
    let checker = checker();
    with_browser(1200, async |browser| {
        let cdp = browser.cdp();
        for scheme in ["light", "dark"] {
            let wish = serde_json::json!({ "features": [{ "name": "prefers-color-scheme", "value": scheme }] });
            cdp.send_raw("Emulation.setEmulatedMedia", wish).await?;
            for path in PAGES {
                browser.goto(format!("{address}{path}")).await?;
                let found = violations(browser, &checker).await?;
                assert!(found.is_empty(), "{path} ({scheme}): {found:#?}");
            }
        }
        Ok(())
    });
}

#[test]
fn everything_is_reached_with_the_keyboard_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_page, address) = page(&farm(folder.path()));
    with_browser(1200, async |browser| {
        browser.goto(format!("{address}?supply=driving")).await?;
        // Tab until the switch on the drawing has the focus, then Enter.
        let mut reached = Vec::new();
        for _ in 0..80 {
            browser
                .active_element()
                .await?
                .send_keys(Key::Tab + "")
                .await?;
            let script = "const a = document.activeElement; return a.dataset?.of ?? a.getAttribute('aria-label') ?? a.textContent.slice(0, 30)";
            let name: String = browser.execute(script, Vec::new()).await?.convert()?;
            let done = name == "S1";
            reached.push(name);
            if done {
                break;
            }
        }
        assert_eq!(
            reached.last().map(String::as_str),
            Some("S1"),
            "{reached:?}"
        );
        browser
            .active_element()
            .await?
            .send_keys(Key::Enter + "")
            .await?;
        says(browser, "#state .state", "rack lamps on").await?;
        // The focus is where it was.
        let script = "return document.activeElement.dataset?.of ?? ''";
        let name: String = browser.execute(script, Vec::new()).await?.convert()?;
        assert_eq!(name, "S1");
        // And after a press in the row of choices.
        let link = there(browser, "nav.choice a[href*='idling']").await?;
        link.focus().await?;
        link.send_keys(Key::Enter + "").await?;
        says(browser, "#state .state", "idling").await?;
        let script = "return document.activeElement.textContent";
        let name: String = browser.execute(script, Vec::new()).await?.convert()?;
        assert_eq!(name, "idling");
        Ok(())
    });
}

#[test]
fn without_script_everything_is_a_link_or_a_form() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    with_browser(1200, async |browser| {
        let off = serde_json::json!({ "value": true });
        browser
            .cdp()
            .send_raw("Emulation.setScriptExecutionDisabled", off)
            .await?;
        browser.goto(&address).await?;
        press(browser, "#state svg a[data-of='S1']").await?;
        there(
            browser,
            "nav.choice a[aria-current][href*='?supply=parked']",
        )
        .await?;
        press(browser, "#part-circuit a.line").await?;
        let field = "#plan [name='circuit[rack lamps].drop']:not([type='hidden'])";
        answer(browser, field, "6 %").await?;
        press(browser, "form.set > button.plain").await?;
        until(&plan, "drop   = \"6 %\"");
        press(browser, "button[data-turn='undo']").await?;
        until(&plan, "drop   = \"7 %\"");
        Ok(())
    });
}
