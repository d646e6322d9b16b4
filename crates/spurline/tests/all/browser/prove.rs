//! Proving at the vehicle, on a phone.

use super::*;

#[test]
fn a_pump_that_runs_weakly_is_traced_on_a_phone() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    with_browser(360, async |browser| {
        browser.goto(format!("{address}prove")).await?;
        says(browser, "main .state", "not proved yet").await?;
        choose(browser, "#symptom", "weak M2").await?;
        press(browser, "#seen button").await?;
        says(browser, "#seen", "M2 (transfer pump) is dim or weak").await?;
        says(browser, "#causes", "%").await?;
        press(browser, "main a.big").await?;
        // Where the tips go, what to expect, and a field for what is read.
        says(browser, ".expect", "A sound one reads").await?;
        there(browser, "main .drawing svg").await?;
        there(browser, "#reading").await?;
        // The return of the pump is high: typed by hand in the unit of the meter.
        let sheet = browser.current_url().await?.to_string();
        assert!(sheet.contains("test?n="), "{sheet}");
        browser.goto(format!("{address}prove")).await?;
        let line = browser
            .query(By::XPath(
                "//a[contains(@class,'line')][contains(.,'31 of M2')][contains(.,'battery')]",
            ))
            .first()
            .await?;
        line.click().await?;
        answer(browser, "#reading", "oops").await?;
        press(
            browser,
            "form[action='read'] button[type='submit']:last-of-type",
        )
        .await?;
        says(browser, "[role='alert']", "oops").await?;
        answer(browser, "#who", "Kim").await?;
        answer(browser, "#reading", "900").await?;
        choose(browser, "#unit", "mV").await?;
        press(
            browser,
            "form[action='read'] button[type='submit']:last-of-type",
        )
        .await?;
        says(browser, "main .state", "too high").await?;
        press(browser, "nav.rooms a[href='prove']").await?;
        says(browser, "#causes", "XE3").await?;
        // And the drawing shows where.
        press(browser, "#causes a.deed").await?;
        there(browser, "#state svg").await?;
        Ok(())
    });
    let record = read(&folder.path().join("farm.record.jsonl"));
    assert!(
        record.contains("weak M2") && record.contains("0.9"),
        "{record}"
    );
    assert!(record.contains("Kim"), "{record}");
}
