//! Two browsers, and an editor, on one plan: nobody loses anything.

use super::*;

#[test]
fn texts_changed_at_once_are_put_together_by_hand() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    let address = format!("{address}?beside=text");
    with_browser(1200, async |browser| {
        browser.goto(&address).await?;
        // The second types while the first does not hear of it.
        browser.execute("const w = document.querySelector('#words'); w.focus(); w.value += '# from the first\\n'", Vec::new()).await?;
        let text = read(&plan);
        std::fs::write(&plan, format!("{text}# from the second\n")).expect("written");
        browser.execute("document.querySelector('#words').dispatchEvent(new Event('input', { bubbles: true }))", Vec::new()).await?;
        says(browser, "h1", "has changed").await?;
        says(browser, "#conflict", "# from the second").await?;
        let words = there(browser, "#conflict #words").await?;
        words.send_keys(Key::Control + Key::End).await?;
        words.send_keys("# from the second").await?;
        press(browser, "form.text button").await?;
        there(browser, "#plan").await?;
        let text = read(&plan);
        assert!(text.contains("# from the first") && text.contains("# from the second"));
        Ok(())
    });
}

#[test]
fn answers_to_other_questions_both_stand_and_to_the_same_are_shown() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (_page, address) = page(&plan);
    let address = format!("{address}?edit=circuit%5Brack+lamps%5D");
    with_browser(1200, async |browser| {
        browser.goto(&address).await?;
        // It does not listen for a while, as a phone that was asleep.
        browser.execute("window.EventSource = null; const f = document.querySelector(\"#plan [name='circuit[rack lamps].drop']\"); f.focus(); f.value = '6 %'", Vec::new()).await?;
        let text = read(&plan);
        std::fs::write(&plan, text.replace("count = 2", "count = 1")).expect("written");
        let input = "document.querySelector(\"#plan [name='circuit[rack lamps].drop']\").dispatchEvent(new Event('input', { bubbles: true }))";
        browser.execute(input, Vec::new()).await?;
        let both = until(&plan, "\"6 %\"");
        assert!(both.contains("count = 1"), "{both}");
        says(browser, "#part-circuit", "tungsten lamp, 55 W at rack").await?;
        // The same question at once.
        browser.execute("const f = document.querySelector(\"#plan [name='circuit[rack lamps].drop']\"); f.focus(); f.value = '5 %'", Vec::new()).await?;
        std::fs::write(&plan, both.replace("\"6 %\"", "\"4 %\"")).expect("written");
        browser.execute(input, Vec::new()).await?;
        says(browser, "#conflict", "4 %").await?;
        says(browser, "#conflict", "5 %").await?;
        press(browser, "#conflict button").await?;
        there(browser, "#plan").await?;
        until(&plan, "\"5 %\"");
        Ok(())
    });
}

#[test]
fn what_an_editor_does_is_seen_and_can_be_taken_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let before = read(&plan);
    let (_page, address) = page(&plan);
    with_browser(1200, async |browser| {
        browser.goto(&address).await?;
        says(browser, "#tally", "notes").await?;
        std::fs::write(&plan, before.replace("Orchard ute", "Meadow ute")).expect("written");
        says(browser, "#head h1", "Meadow ute").await?;
        std::fs::write(&plan, before.replace("ways  = 4", "wys = 4")).expect("written");
        says(browser, "#found", "did you mean “ways”?").await?;
        press(browser, "button[data-turn='undo']").await?;
        says(browser, "#head h1", "Meadow ute").await?;
        assert_eq!(read(&plan), before.replace("Orchard ute", "Meadow ute"));
        Ok(())
    });
}
