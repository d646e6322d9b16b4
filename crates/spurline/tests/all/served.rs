//! The page as programs meet it: who may ask, what is taken, and that nothing is lost when it is ended in the middle.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// The program, serving a plan.
struct Served {
    child: Child,
    address: String,
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn serve(plan: &Path) -> Served {
    serve_with(plan, &[]).0
}

/// The same with more said; gives the code for a phone too, if there is one.
fn serve_with(plan: &Path, more: &[&str]) -> (Served, Option<String>) {
    let mut child = Command::new(env!("CARGO_BIN_EXE_spurline"))
        .arg("open")
        .arg(plan)
        .args(["--port", "0"])
        .args(more)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("it runs");
    let output = child.stdout.take().expect("piped");
    let mut code = None;
    let mut lines = BufReader::new(output).lines().map_while(Result::ok);
    let address = lines.find_map(|line| {
        if let Some((_, told)) = line.split_once("another browser: ") {
            code = Some(told.to_owned());
        }
        let (_, rest) = line.split_once("http://")?;
        rest.split('/').next().map(str::to_owned)
    });
    let address = address.expect("it says where it listens");
    // What it tells later is read, so that it can go on telling.
    std::thread::spawn(move || lines.for_each(drop));
    (Served { child, address }, code)
}

/// Sends a request as it stands; gives the whole answer, or what came of it before the program ended.
fn ask(address: &str, request: &str) -> String {
    let mut answer = String::new();
    if let Ok(mut stream) = TcpStream::connect(address) {
        let _ = stream.set_read_timeout(Some(Duration::from_secs(30)));
        let _ = stream.write_all(request.as_bytes());
        let mut bytes = Vec::new();
        let _ = stream.read_to_end(&mut bytes);
        answer = String::from_utf8_lossy(&bytes).into_owned();
    }
    answer
}

fn status(answer: &str) -> u16 {
    let word = answer.split(' ').nth(1).unwrap_or_default();
    word.parse().unwrap_or(0)
}

fn get(address: &str, path: &str, host: &str) -> String {
    ask(
        address,
        &format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"),
    )
}

fn form(text: &str) -> String {
    let byte = |b: u8| match b {
        b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => char::from(b).to_string(),
        _ => format!("%{b:02X}"),
    };
    text.bytes().map(byte).collect()
}

/// A form that keeps a plan, as a browser on this page sends it.
fn post(address: &str, origin: Option<&str>, body: &str) -> String {
    let origin = origin.map_or_else(String::new, |o| format!("Origin: {o}\r\n"));
    let head = format!(
        "POST /farm/text HTTP/1.1\r\nHost: {address}\r\n{origin}Content-Type: application/x-www-form-urlencoded\r\n\
         Content-Length: {}\r\nConnection: close\r\n\r\n",
        body.len()
    );
    ask(address, &(head + body))
}

/// What the page says of which text it shows.
fn seen(address: &str) -> String {
    let page = get(address, "/farm/?beside=text", address);
    let (_, rest) = page.split_once("name=\"seen\" value=\"").expect("a form");
    rest.split('"').next().unwrap_or_default().to_owned()
}

fn farm(folder: &Path) -> std::path::PathBuf {
    let plan = folder.join("farm.toml");
    std::fs::copy(crate::run::examples().join("farm.toml"), &plan).expect("copied");
    plan
}

#[test]
fn a_text_is_kept_and_what_it_was_before_too() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let before = std::fs::read_to_string(&plan).expect("read");
    let served = serve(&plan);
    let own = format!("http://{}", served.address);
    let text = before.replace("Orchard ute", "Meadow ute");
    let body = format!("seen={}&text={}", seen(&served.address), form(&text));
    assert_eq!(status(&post(&served.address, Some(&own), &body)), 303);
    assert_eq!(std::fs::read_to_string(&plan).expect("read"), text);
    let page = get(&served.address, "/farm/", &served.address);
    assert!(page.contains("Meadow ute"));
    let old = get(&served.address, "/farm/version?n=1", &served.address);
    assert!(old.contains("Orchard ute"));
    // The same form once more: what it saw is no longer there.
    let again = post(&served.address, Some(&own), &body);
    assert_eq!(status(&again), 409);
    assert!(again.contains("Only in yours"));
    assert_eq!(std::fs::read_to_string(&plan).expect("read"), text);
}

#[test]
fn a_plan_changed_by_an_editor_is_not_written_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let before = std::fs::read_to_string(&plan).expect("read");
    let served = serve(&plan);
    let seen = seen(&served.address);
    let edited = before.replace("55 W", "60 W");
    std::fs::write(&plan, &edited).expect("written");
    let own = format!("http://{}", served.address);
    let body = format!("seen={seen}&text={}", form(&before.replace("55 W", "50 W")));
    let answer = post(&served.address, Some(&own), &body);
    assert_eq!(status(&answer), 409);
    assert!(answer.contains("60 W") && answer.contains("50 W"));
    assert_eq!(std::fs::read_to_string(&plan).expect("read"), edited);
}

#[test]
fn nobody_from_elsewhere_is_answered() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let before = std::fs::read_to_string(&plan).expect("read");
    let served = serve(&plan);
    let here = &served.address;
    // A name bent to this machine.
    assert_eq!(status(&get(here, "/", "plan.example:80")), 403);
    assert_eq!(status(&get(here, "/farm/", "127.0.0.1.plan.example")), 403);
    // A page of somebody else's, and a request that does not say whose it is.
    let body = format!("seen={}&text=", seen(here));
    for origin in [Some("http://plan.example"), Some("null"), None] {
        assert_eq!(status(&post(here, origin, &body)), 403, "{origin:?}");
    }
    // No path leads out of the plan.
    for path in [
        "/../farm.toml",
        "/..%2ffarm/",
        "/farm/lists/..%2f..%2ffarm.toml",
        "/farm/drawing?name=../../farm",
        "/farm/version?n=../1",
        "/farm/made?file=../farm.toml",
    ] {
        assert!(
            matches!(status(&get(here, path, here)), 400 | 404),
            "{path}"
        );
    }
    assert_eq!(std::fs::read_to_string(&plan).expect("read"), before);
}

#[test]
fn what_is_too_large_or_malformed_is_refused_and_loses_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let before = std::fs::read_to_string(&plan).expect("read");
    let served = serve(&plan);
    let own = format!("http://{}", served.address);
    let huge = format!("seen=x&text={}", "a".repeat(3_000_000));
    assert_eq!(status(&post(&served.address, Some(&own), &huge)), 413);
    for body in ["", "seen=x", "text=x", "%%%=", "seen=\u{0}&seen=2"] {
        let got = status(&post(&served.address, Some(&own), body));
        assert!((400..500).contains(&got), "{body}: {got}");
    }
    assert_eq!(status(&ask(&served.address, "NONSENSE\r\n\r\n")), 400);
    // It answers still.
    assert_eq!(
        status(&get(&served.address, "/farm/", &served.address)),
        200
    );
    assert_eq!(std::fs::read_to_string(&plan).expect("read"), before);
}

#[test]
fn killed_at_any_moment_the_plan_is_whole_and_what_was_said_to_be_kept_is_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = folder.path().join("farm.toml");
    // A plan that can't be read yet: a look at it takes no time, and it is kept like any other.
    let base = "# a line of a plan that is being written\n".repeat(400);
    std::fs::write(&plan, &base).expect("written");
    let text = |n: usize| format!("{base}# change {n}\n# end\n");
    let mut sent = 0;
    for kill in 0..200_u64 {
        let mut served = serve(&plan);
        let address = served.address.clone();
        let own = format!("http://{address}");
        let kept = std::thread::scope(|scope| {
            let writer = scope.spawn(|| {
                // Until it no longer answers.
                let mut kept = None;
                let mut n = sent;
                loop {
                    let Some(seen) = page_revision(&address) else {
                        return (kept, n);
                    };
                    n += 1;
                    let body = format!("seen={seen}&text={}", form(&text(n)));
                    if status(&post(&address, Some(&own), &body)) == 303 {
                        kept = Some(n);
                    }
                }
            });
            std::thread::sleep(Duration::from_millis(kill * 7 % 61));
            let _ = served.child.kill();
            let _ = served.child.wait();
            writer.join().expect("the writer ends")
        });
        sent = kept.1;
        let there = std::fs::read_to_string(&plan).expect("the plan is there");
        assert!(
            there == base || there.ends_with("# end\n"),
            "kill {kill}: {:?}",
            there.get(there.len().saturating_sub(40)..)
        );
        if let Some(least) = kept.0 {
            // What was answered is there, or what was sent after it.
            assert!(
                (least..=sent).any(|n| there == text(n)),
                "kill {kill}: {least}"
            );
        }
    }
    assert!(sent > 20, "{sent} were sent");
    // What lay half written is cleared away at the next start.
    drop(serve(&plan));
    let left = std::fs::read_dir(folder.path()).expect("a folder");
    let left: Vec<_> = left.flatten().map(|e| e.file_name()).collect();
    assert_eq!(left.len(), 2, "{left:?}");
}

/// The addresses of faults that a page lets one make, in its order.
fn strikes(page: &str, kind: &str) -> Vec<String> {
    let links = page.split("href=\"").skip(1);
    let address = |l: &str| {
        l.split('"')
            .next()
            .unwrap_or_default()
            .replace("&amp;", "&")
    };
    let at = format!("&fault={kind}&at=");
    links.map(address).filter(|a| a.contains(&at)).collect()
}

#[test]
fn every_fault_is_made_with_a_touch_and_comes_out_as_try_says() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let out = crate::run::spurline(folder.path(), &["try", "farm.toml", "--json"]);
    let json: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
    let mut kinds: Vec<&str> = json["faults"]
        .as_array()
        .expect("faults")
        .iter()
        .filter_map(|f| f["fault"].as_str())
        .collect();
    kinds.sort_unstable();
    kinds.dedup();
    assert!(kinds.len() > 10, "{kinds:?}");
    let served = serve(&plan);
    let here = &served.address;
    for kind in kinds {
        let page = get(
            here,
            &format!("/farm/?supply=driving&on=0.1&fault={kind}"),
            here,
        );
        let strikes = strikes(&page, kind);
        let first = strikes
            .first()
            .unwrap_or_else(|| panic!("{kind} can be made somewhere"));
        let made = get(here, &format!("/farm/{first}"), here);
        assert!(made.contains("id=\"struck\""), "{kind}: {first}");
        // The same, asked of the command.
        let at = first.rsplit("&at=").next().unwrap_or_default();
        let state = ["--state", "driving, everything on"];
        let args = [
            &["try", "farm.toml", "--json", "--fault", kind, "--at", at][..],
            &state[..],
        ];
        let out = crate::run::spurline(folder.path(), &args.concat());
        let told: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap_or_default();
        let worst = &told["faults"][0];
        let (outcome, says) = (worst["outcome"].as_str(), worst["says"].as_str());
        let outcome = outcome.unwrap_or_else(|| panic!("{kind} at {at}: {told}"));
        assert!(
            made.contains(&format!("<strong>{outcome}</strong>")),
            "{kind} at {at}: {outcome}"
        );
        // Text in HTML has some signs in another form: up to the first of them it is the same.
        let words = says.unwrap_or_default().split(['&', '<', '>', '"']).next();
        let words = words.unwrap_or_default();
        assert!(
            words.len() > 10 && made.contains(words),
            "{kind} at {at}: {words}"
        );
    }
}

/// The revision that the page shows, if it still answers.
fn page_revision(address: &str) -> Option<String> {
    let page = get(address, "/farm/?beside=text", address);
    let (_, rest) = page.split_once("name=\"seen\" value=\"")?;
    rest.split('"').next().map(str::to_owned)
}

/// This machine's number on its network; nothing is sent to find it.
fn own_number() -> std::net::IpAddr {
    let socket = std::net::UdpSocket::bind(("0.0.0.0", 0)).expect("a socket");
    socket
        .connect(("192.0.2.1", 9))
        .expect("this machine has a network to try --lan on");
    socket.local_addr().expect("an address").ip()
}

#[test]
fn a_phone_is_let_in_once_it_tells_the_code() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = farm(folder.path());
    let (served, code) = serve_with(&plan, &["--lan"]);
    let code = code.expect("a code is told");
    let (_, port) = served.address.rsplit_once(':').expect("a port");
    let there = format!("{}:{port}", own_number());
    // From this machine as before; from the network by its number, to where the code is told.
    assert_eq!(
        status(&get(&served.address, "/farm/", &served.address)),
        200
    );
    let sent = get(&there, "/farm/", &there);
    assert!(
        status(&sent) == 303 && sent.contains("location: /pair"),
        "{sent}"
    );
    let ask_with = |method: &str, path: &str, more: &str, body: &str| {
        ask(
            &there,
            &format!(
                "{method} {path} HTTP/1.1\r\nHost: {there}\r\nOrigin: http://{there}\r\n{more}Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\nConnection: close\r\n\r\n{body}",
                body.len()
            ),
        )
    };
    assert_eq!(status(&ask_with("POST", "/farm/undo", "", "seen=x")), 403);
    assert_eq!(
        status(&ask_with("POST", "/pair", "", "code=AAAA-AAAA")),
        403
    );
    let paired = ask_with("POST", "/pair", "", &format!("code={code}"));
    assert_eq!(status(&paired), 303);
    let cookie = paired.lines().find_map(|l| l.strip_prefix("set-cookie: "));
    let cookie = cookie
        .expect("a cookie")
        .split(';')
        .next()
        .expect("its pair");
    let with = format!("Cookie: {cookie}\r\n");
    assert_eq!(status(&ask_with("GET", "/farm/", &with, "")), 200);
    // A name bent to this machine is refused though it brings the cookie.
    let bent =
        format!("GET /farm/ HTTP/1.1\r\nHost: plan.example\r\n{with}Connection: close\r\n\r\n");
    assert_eq!(status(&ask(&there, &bent)), 403);
}

#[test]
fn without_lan_nobody_on_the_network_is_answered() {
    let folder = tempfile::tempdir().expect("a folder");
    let served = serve(&farm(folder.path()));
    let (_, port) = served.address.rsplit_once(':').expect("a port");
    let there = format!("{}:{port}", own_number());
    assert!(TcpStream::connect(there).is_err());
}

#[test]
fn one_who_asks_without_end_is_held_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let served = serve(&farm(folder.path()));
    let here = &served.address;
    let answers: Vec<u16> = (0..700)
        .map(|_| status(&get(here, "/icon.svg", here)))
        .collect();
    assert!(answers[..500].iter().all(|s| *s == 200));
    assert_eq!(answers.last(), Some(&429));
}
