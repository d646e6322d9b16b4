//! The drawing as the instrument.

use super::*;

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
    // The report counts what free ways are to carry one day, the drawing shows what flows today: here there is none.
    let text = read(&plan).replace("spare = \"10 A\"", "# spare");
    assert!(text.contains("# spare"), "{text}");
    std::fs::write(&plan, text).expect("written");
    let (state, volts, amps) = checked(&plan, "E1.1");
    assert_eq!(state, "driving, everything on");
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser.goto(&address).await?;
        says(browser, "#state .state", "parked, switches off").await?;
        // The page itself stays: what is set on it outlives every press.
        browser.execute("window.stays = true", Vec::new()).await?;
        press(browser, "nav.choice a[href*='driving']").await?;
        says(browser, "#state .state", "driving, switches off").await?;
        press(browser, "#state svg a[data-of='S1']").await?;
        says(browser, "#state .state", "driving, rack lamps on").await?;
        press(browser, "#state svg a[data-of='S2']").await?;
        says(browser, "#state .state", "driving, everything on").await?;
        let cells = browser
            .find_all(By::Css("#live-loads tr[data-of='E1.1'] td.figure"))
            .await?;
        let figure = async |i: usize| -> WebDriverResult<f64> {
            Ok(cells[i].text().await?.parse().expect("a number"))
        };
        assert!((figure(0).await? - volts).abs() < 0.006, "{volts}");
        assert!((figure(1).await? - amps).abs() < 0.006, "{amps}");
        // A wire that is pointed at says what it carries: both lamps' current.
        let wire = there(browser, "#state svg a[data-of='W1.7']").await?;
        let title = wire.find(By::Css("title")).await?;
        let title = title.prop("textContent").await?.unwrap_or_default();
        assert!(title.contains(&format!("{:.2} A", 2.0 * amps)), "{title}");
        let stays = browser.execute("return window.stays", Vec::new()).await?;
        assert_eq!(stays.json(), &serde_json::json!(true));
        // Back leads to the state before.
        browser.back().await?;
        says(browser, "#state .state", "driving, rack lamps on").await?;
        // Nothing is asked of another host.
        browser
            .goto(format!("{address}?supply=driving&on=0.1"))
            .await?;
        let others = "return performance.getEntriesByType('resource').map(r => r.name).filter(n => !n.startsWith(location.origin))";
        let others = browser.execute(others, Vec::new()).await?;
        assert_eq!(others.json(), &serde_json::json!([]));
        Ok(())
    });
}

#[test]
fn a_wire_says_why_it_is_as_it_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_page, address) = page(&farm(folder.path()));
    with_browser(1400, async |browser| {
        browser.goto(&address).await?;
        press(browser, "#state svg a[data-of='W1.7']").await?;
        says(browser, "#why", "W1.7").await?;
        // What one size smaller would break.
        says(browser, "#why", "smaller").await
    });
}

#[test]
fn a_fault_is_made_by_touch() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_page, address) = page(&farm(folder.path()));
    with_browser(1400, async |browser| {
        browser
            .goto(format!("{address}?supply=driving&on=0.1"))
            .await?;
        press(browser, "#go-wrong summary").await?;
        press(browser, "nav.choice a[href*='wire-to-body']").await?;
        says(browser, "#state", "Touch where it happens").await?;
        press(browser, "#state svg a[data-of='W1.7']").await?;
        says(browser, "#struck", "F1").await?;
        // The wire's heat over time.
        there(browser, "#state .card svg").await?;
        Ok(())
    });
}

#[test]
fn each_kind_of_fault_is_made_by_touch() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_page, address) = page(&farm(folder.path()));
    with_browser(1400, async |browser| {
        browser
            .goto(format!("{address}?supply=driving&on=0.1"))
            .await?;
        press(browser, "#go-wrong summary").await?;
        let mut made = Vec::new();
        for kind in job::study::FAULTS {
            press(browser, &format!("nav.choice a[href*='fault={}']", kind.id)).await?;
            let chosen = format!("nav.choice a[href*='fault={}'][aria-current]", kind.id);
            there(browser, &chosen).await?;
            // What can be touched is framed; where nothing can, nothing is.
            let can = browser
                .find_all(By::Css("#state svg a[href*='at=']"))
                .await?;
            let framed = "#state svg a[href*='at=']:has(> rect[rx])";
            let framed = browser.find_all(By::Css(framed)).await?;
            let Some(first) = framed.first().or(can.first()) else {
                continue;
            };
            first.click().await?;
            says(browser, "#struck", "Tried in").await?;
            made.push(kind.id);
        }
        // No plan has everything: nothing here is welded into a converter.
        assert!(made.len() + 3 >= job::study::FAULTS.len(), "{made:?}");
        Ok(())
    });
}
