//! A plan made and changed on the page.

use super::*;

fn path(path: &str) -> String {
    format!("#plan [name='{path}']:not([type='hidden'])")
}

#[test]
fn from_nothing_to_a_sound_circuit_of_three_lamps() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_page, address) = page(folder.path());
    with_browser(1400, async |browser| {
        browser.goto(&address).await?;
        press(browser, "a[href='/new']").await?;
        answer(browser, "#title", "Work lamps").await?;
        choose(browser, "#outline", "pick-up").await?;
        answer(browser, "#capacity", "70 Ah").await?;
        answer(browser, "#alternator", "90 A").await?;
        press(browser, "form.entry button").await?;
        press(browser, "#part-circuit a.deed").await?;
        let new = |key: &str| format!("form.new [name='{key}']");
        answer(browser, &new("name"), "rear lamps").await?;
        answer(browser, &new("load.kind"), "LED lamp").await?;
        answer(browser, &new("load.rated"), "20 W").await?;
        choose(browser, &new("load.place"), "rear").await?;
        answer(browser, &new("load.count"), "3").await?;
        choose(browser, &new("earth"), "rear").await?;
        press(browser, "form.new > button").await?;
        says(browser, "#part-circuit", "3 × LED lamp, 20 W at rear").await?;
        // Sound: nothing to stop for, nothing to mend.
        let found = there(browser, "#tally").await?;
        let tally = found.text().await?;
        assert!(
            tally.contains("notes") && !tally.contains("mend"),
            "{tally}"
        );
        there(browser, "#state svg").await?;
        let plan = folder.path().join("work-lamps.toml");
        let out = crate::run::spurline(folder.path(), &["check", "work-lamps.toml", "--json"]);
        assert!(out.status.success(), "{}", read(&plan));
        let json: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
        assert_eq!(json["loads"].as_array().map(Vec::len), Some(3));
        Ok(())
    });
}

#[test]
fn forms_and_text_follow_each_other_and_comments_stay() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let before = read(&plan);
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser
            .goto(format!("{address}?beside=text&edit=box%5Bauxiliary+box%5D"))
            .await?;
        answer(browser, &path("box[auxiliary box].spare"), "12 A").await?;
        let text = until(&plan, "spare = \"12 A\"");
        assert_eq!(text, before.replace("\"10 A\"      #", "\"12 A\"      #"));
        let words = browser.query(By::Css("#words"));
        let follows = words.with_filter(|e: WebElement| async move {
            let shown = e.prop("value").await?.unwrap_or_default();
            Ok(shown.contains("spare = \"12 A\"      # two ways stay free"))
        });
        follows.first().await?;
        // And the other way round.
        let script = "const w = document.querySelector('#words'); w.value = w.value.replace('12 A', '8 A'); w.dispatchEvent(new Event('input', { bubbles: true }))";
        browser.execute(script, Vec::new()).await?;
        until(&plan, "spare = \"8 A\"");
        let field = browser.query(By::Css(path("box[auxiliary box].spare")));
        let is = field.with_filter(|e: WebElement| async move {
            Ok(e.prop("value").await?.as_deref() == Some("8 A"))
        });
        is.first().await?;
        Ok(())
    });
}

#[test]
fn what_is_seldom_asked_is_typed_like_anything_else() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser
            .goto(format!("{address}?edit=place%5Brack%5D"))
            .await?;
        press(browser, "#plan .entry details.more > summary").await?;
        let field = path("place[rack].heat");
        press(browser, &field).await?;
        // Letter after letter, each of them kept before the next.
        let mut typed = String::new();
        for letter in "55 °C".chars() {
            typed.push(letter);
            let field = browser.active_element().await?;
            field.send_keys(letter.to_string()).await?;
            until(&plan, &format!("heat = \"{}\"", typed.trim_end()));
        }
        Ok(())
    });
}

#[test]
fn what_cant_be_right_is_not_added_and_stays_to_be_mended() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let before = read(&plan);
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser.goto(format!("{address}?edit=%2Bcircuit")).await?;
        let new = |key: &str| format!("form.new [name='{key}']");
        answer(browser, &new("name"), "beacon").await?;
        answer(browser, &new("load.kind"), "LED lamp").await?;
        answer(browser, &new("load.rated"), "5 bananas").await?;
        choose(browser, &new("load.place"), "rack").await?;
        choose(browser, &new("earth"), "rack").await?;
        press(browser, "form.new > button").await?;
        says(browser, "form.new [role='alert']", "It was not added").await?;
        assert_eq!(read(&plan), before);
        answer(browser, &new("load.rated"), "5 W").await?;
        press(browser, "form.new > button").await?;
        until(&plan, "name = \"beacon\"");
        Ok(())
    });
}

#[test]
fn an_error_stands_at_its_field_and_on_its_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser
            .goto(format!("{address}?edit=box%5Bauxiliary+box%5D"))
            .await?;
        answer(browser, &path("box[auxiliary box].spare"), "10 bananas").await?;
        says(browser, "#plan .told.wrong", "bananas").await?;
        let field = there(browser, &path("box[auxiliary box].spare")).await?;
        assert_eq!(field.attr("aria-invalid").await?.as_deref(), Some("true"));
        says(
            browser,
            "#tally",
            "to mend before anything can be worked out",
        )
        .await?;
        // The last drawing stays, faint.
        there(browser, "#state.of-before svg").await?;
        press(browser, "#tally a").await?;
        press(browser, "#found a[href*='beside=text']").await?;
        let line = there(browser, "#text .lines li.wrong").await?;
        let title = line.attr("title").await?.unwrap_or_default();
        assert!(title.contains("bananas"), "{title}");
        // Taken back with one press, everything is as it was.
        press(browser, "button[data-turn='undo']").await?;
        says(browser, "#tally", "notes").await?;
        assert_eq!(read(&plan), read(&crate::run::examples().join("farm.toml")));
        Ok(())
    });
}

#[test]
fn changes_are_taken_back_and_brought_back_with_the_keyboard() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let before = read(&plan);
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser
            .goto(format!("{address}?edit=circuit%5Brack+lamps%5D"))
            .await?;
        answer(browser, &path("circuit[rack lamps].name"), "night lamps").await?;
        browser
            .active_element()
            .await?
            .send_keys(Key::Tab + "")
            .await?;
        until(&plan, "\"night lamps\"");
        says(browser, "#part-circuit", "night lamps").await?;
        // The form is still the same circuit's.
        there(browser, &path("circuit[night lamps].name")).await?;
        press(browser, "#head h1").await?;
        let keys = |keys: &str, shift: bool| {
            format!(
                "document.body.dispatchEvent(new KeyboardEvent('keydown', {{ key: '{keys}', ctrlKey: true, shiftKey: {shift}, bubbles: true }}))"
            )
        };
        browser.execute(keys("z", false), Vec::new()).await?;
        until(&plan, "\"rack lamps\"");
        assert_eq!(read(&plan), before);
        says(browser, "#part-circuit", "rack lamps").await?;
        browser.execute(keys("z", true), Vec::new()).await?;
        until(&plan, "\"night lamps\"");
        Ok(())
    });
}

#[test]
fn a_finding_is_shown_on_the_drawing_and_mended_with_one_press() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let text = read(&plan).replace(
        "feed  = \"battery\"\n",
        "feed  = \"battery\"\nfuse  = false\n",
    );
    std::fs::write(&plan, &text).expect("written");
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser.goto(&address).await?;
        says(browser, "#tally", "stop").await?;
        press(browser, "#found article.stop a.deed").await?;
        there(browser, "#state svg rect[fill='#9fd3f0']").await?;
        press(browser, "#found article.stop form.deed button").await?;
        says(browser, "#said", "Done: a fuse where the feeder").await?;
        assert!(!until(&plan, "feed  = \"battery\"").contains("fuse  = false"));
        let summary = there(browser, "#tally").await?.text().await?;
        assert!(!summary.contains("stop"), "{summary}");
        Ok(())
    });
}

#[test]
fn a_place_is_moved_on_the_vehicle() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser.goto(format!("{address}?beside=vehicle")).await?;
        let handle = there(browser, ".handle[data-path='place[rack].at']").await?;
        let to = there(browser, ".handle[data-path='place[dash].at']").await?;
        browser
            .action_chain()
            .drag_and_drop_element(&handle, &to)
            .perform()
            .await?;
        let text = until(&plan, "at = { along");
        let moved = text
            .lines()
            .find(|l| l.starts_with("\"rack\""))
            .unwrap_or_default();
        assert!(
            moved.contains("along = \"") && moved.contains("across = \""),
            "{moved}"
        );
        // With the arrow keys too.
        let script = "document.querySelector(\".handle[data-path='place[rack].at']\").dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true }))";
        let before = moved.to_owned();
        browser.execute(script, Vec::new()).await?;
        for _ in 0..100 {
            let text = read(&plan);
            let now = text
                .lines()
                .find(|l| l.starts_with("\"rack\""))
                .unwrap_or_default()
                .to_owned();
            if now != before {
                return Ok(());
            }
            std::thread::sleep(std::time::Duration::from_millis(50));
        }
        panic!("it was not moved: {before}")
    });
}

#[test]
fn the_pack_is_made_and_can_be_had() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_page, address) = page(&farm(folder.path()));
    with_browser(1000, async |browser| {
        browser.goto(format!("{address}pack")).await?;
        press(browser, "form button").await?;
        let query = browser.query(By::Css("#made a[download]"));
        let files = query
            .wait(
                std::time::Duration::from_secs(60),
                std::time::Duration::from_millis(200),
            )
            .all_from_selector_required()
            .await?;
        let name = files[0].attr("download").await?;
        assert_eq!(name.as_deref(), Some("pack.pdf"));
        let script = "const done = arguments[0]; fetch('made?file=pack.pdf').then(r => r.arrayBuffer()).then(b => done([b.byteLength, new TextDecoder().decode(b.slice(0, 5))]))";
        let got = browser.execute_async(script, Vec::new()).await?;
        let got: (u64, String) = got.convert()?;
        assert!(got.0 > 100_000 && got.1 == "%PDF-", "{got:?}");
        Ok(())
    });
}

#[test]
fn a_day_that_empties_the_battery_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser.goto(format!("{address}?edit=%2Bday")).await?;
        let new = |key: &str| format!("form.new [name='{key}']");
        answer(browser, &new("hours"), "9 h").await?;
        choose(browser, &new("supply"), "parked").await?;
        press(browser, "form.new [name='on'][value='transfer pump']").await?;
        press(browser, "form.new > button").await?;
        says(browser, "#found", "empties the battery").await?;
        press(browser, "#tally a").await?;
        press(browser, "#found a[href='supply']").await?;
        there(browser, "main svg").await.map(|_| ())
    });
}

#[test]
fn a_plan_is_compared_with_what_it_was() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    with_browser(1400, async |browser| {
        browser
            .goto(format!("{address}?edit=circuit%5Brack+lamps%5D"))
            .await?;
        answer(browser, &path("circuit[rack lamps].load[1].rated"), "80 W").await?;
        until(&plan, "80 W");
        browser.goto(format!("{address}compare")).await?;
        press(browser, "a.deed").await?;
        says(browser, "main", "version 1").await
    });
}
