//! At the vehicle: a narrow screen, gloves, another machine.

use super::*;

#[test]
fn no_page_is_wider_than_a_phone() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_page, address) = page(&farm(folder.path()));
    with_browser(800, async |browser| {
        as_wide(browser, 360).await?;
        for path in [
            "",
            "?supply=driving&on=0.1&fault=wire-to-body&at=W1.7&why=W1.7",
            "?beside=text",
            "?beside=vehicle",
            "?edit=circuit%5Brack+lamps%5D",
            "?edit=%2Bcircuit",
            "report",
            "supply",
            "loom",
            "lists",
            "steps",
            "step?n=6",
            "pack",
            "prove",
            "test?n=12",
            "compare",
            "before",
            "faults",
        ] {
            browser.goto(format!("{address}{path}")).await?;
            // Every fault may take a while.
            there(browser, "main, #page").await?;
            let script = "return [document.documentElement.scrollWidth, window.innerWidth]";
            let widths: Vec<f64> = browser.execute(script, Vec::new()).await?.convert()?;
            assert_eq!(widths, [360.0, 360.0], "{path}");
        }
        Ok(())
    });
}

#[test]
fn steps_are_ticked_with_gloves_and_the_ticks_stay() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    with_browser(800, async |browser| {
        as_wide(browser, 360).await?;
        browser.goto(format!("{address}steps")).await?;
        press(browser, "a.big").await?;
        says(browser, "h1", "1. ").await?;
        let button = there(browser, "button.big").await?;
        let (_, _, wide, tall) = {
            let r = button.rect().await?;
            (r.x, r.y, r.width, r.height)
        };
        assert!(wide > 300.0 && tall >= 64.0, "{wide} by {tall}");
        button.click().await?;
        says(browser, "h1", "2. ").await?;
        browser.goto(format!("{address}steps")).await?;
        says(browser, "p.state", "1 of ").await?;
        let ticked = browser
            .find_all(By::Css("button[aria-checked='true']"))
            .await?;
        assert_eq!(ticked.len(), 1);
        let record = read(&folder.path().join("farm.record.jsonl"));
        assert!(record.contains("\"done\":true"), "{record}");
        Ok(())
    });
}
