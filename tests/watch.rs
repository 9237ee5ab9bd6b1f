//! The page of `furbelow watch`: who is answered and who is not, and what is shown when the garment is saved.

use std::fs;
use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use furbelow::cache::{Memory, Nothing};
use furbelow::watch::{Desk, Limits, Server};
use serde_json::Value;

/// A served garment; stopped when dropped.
struct Served {
    _home: tempfile::TempDir,
    garment: PathBuf,
    desk: Arc<Desk>,
    address: SocketAddr,
    stop: Arc<AtomicBool>,
    serving: Option<JoinHandle<()>>,
}

impl Drop for Served {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::SeqCst);
        let _ = TcpStream::connect(self.address);
        if let Some(serving) = self.serving.take() {
            let _ = serving.join();
        }
    }
}

fn apron() -> String {
    let case = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/apron/garment.yaml");
    fs::read_to_string(case).expect("the case")
}

impl Served {
    fn new(limits: Limits) -> Served {
        let home = tempfile::tempdir().expect("a folder");
        let garment = home.path().join("apron");
        fs::create_dir(&garment).expect("a folder");
        fs::write(garment.join("garment.yaml"), apron()).expect("a file");
        fs::write(home.path().join("secret.svg"), "not yours").expect("a file");
        let desk = Arc::new(Desk::new(&garment, Arc::new(Memory::new(Arc::new(Nothing), 1 << 24))));
        let server = Server::bind(0, desk.clone()).expect("a port").limits(limits);
        let address = server.address().expect("an address");
        let stop = Arc::new(AtomicBool::new(false));
        let until = stop.clone();
        let serving = thread::spawn(move || server.serve(&until).expect("it serves"));
        Served { _home: home, garment, desk, address, stop, serving: Some(serving) }
    }

    fn save(&self, text: &str) {
        fs::write(self.garment.join("garment.yaml"), text).expect("a file");
        self.desk.renew();
    }

    /// Sends bytes as they are and reads the whole answer.
    fn raw(&self, bytes: &[u8]) -> (u16, String) {
        let mut stream = TcpStream::connect(self.address).expect("it listens");
        stream.set_read_timeout(Some(Duration::from_secs(60))).expect("a time limit");
        let _ = stream.write_all(bytes);
        let mut answer = Vec::new();
        let _ = stream.read_to_end(&mut answer);
        let answer = String::from_utf8_lossy(&answer).into_owned();
        let status = answer.split(' ').nth(1).and_then(|status| status.parse().ok()).unwrap_or(0);
        (status, answer)
    }

    fn get_with(&self, path: &str, headers: &str) -> (u16, String) {
        self.raw(format!("GET {path} HTTP/1.1\r\n{headers}\r\n").as_bytes())
    }

    fn get(&self, path: &str) -> (u16, String) {
        let (status, answer) = self.get_with(path, &format!("Host: {}\r\n", self.address));
        let body = answer.split_once("\r\n\r\n").map(|(_, body)| body.to_string()).unwrap_or_default();
        (status, body)
    }

    fn json(&self, path: &str) -> Value {
        let (status, body) = self.get(path);
        assert_eq!(status, 200, "{path}: {body}");
        serde_json::from_str(&body).unwrap_or_else(|error| panic!("{path}: {error}: {body}"))
    }

    fn try_value(&self, body: &str, headers: &str) -> (u16, String) {
        let request = format!(
            "POST /try HTTP/1.1\r\nHost: {}\r\nContent-Length: {}\r\n{headers}\r\n{body}",
            self.address,
            body.len()
        );
        let (status, answer) = self.raw(request.as_bytes());
        (status, answer.split_once("\r\n\r\n").map(|(_, body)| body.to_string()).unwrap_or_default())
    }
}

#[test]
fn only_this_machine_and_only_this_page() {
    let served = Served::new(Limits::default());
    assert!(served.address.ip().is_loopback());
    let port = served.address.port();
    let own = format!("Host: 127.0.0.1:{port}\r\n");
    for headers in [
        own.clone(),
        format!("Host: localhost:{port}\r\n"),
        format!("{own}Origin: http://localhost:{port}\r\n"),
        format!("{own}Sec-Fetch-Site: same-origin\r\n"),
    ] {
        let (status, answer) = served.get_with("/", &headers);
        assert_eq!(status, 200, "{headers}");
        for guard in ["Content-Security-Policy: default-src 'none'", "X-Content-Type-Options: nosniff", "no-referrer"] {
            assert!(answer.contains(guard), "{guard}");
        }
        assert!(!answer.contains("Access-Control-Allow"), "no other site may read");
    }
    for headers in [
        String::new(),
        "Host: \r\n".to_string(),
        format!("Host: rebound.example:{port}\r\n"),
        format!("Host: 127.0.0.1:{}\r\n", port.wrapping_add(1)),
        format!("Host: 127.0.0.1:{port}.example\r\n"),
        format!("{own}Host: 127.0.0.1:{port}\r\n"),
        format!("{own}Origin: https://elsewhere.example\r\n"),
        format!("{own}Origin: null\r\n"),
        format!("{own}Origin: http://127.0.0.1:{port}\r\nOrigin: https://elsewhere.example\r\n"),
        format!("{own}Sec-Fetch-Site: cross-site\r\n"),
        format!("{own}Sec-Fetch-Site: same-site\r\n"),
    ] {
        for path in ["/", "/state", "/events"] {
            let (status, answer) = served.get_with(path, &headers);
            assert_eq!(status, 403, "{path} {headers}: {answer}");
        }
    }
    // A form or a script of another site cannot try values: it cannot send both headers.
    let body = "{\"route\":[\"numbers\",\"allow\"],\"value\":\"1 in\"}";
    let origin = format!("Origin: http://127.0.0.1:{port}\r\n");
    for headers in [
        "Content-Type: application/json\r\n".to_string(),
        origin.clone(),
        format!("{origin}Content-Type: text/plain\r\n"),
    ] {
        assert_eq!(served.try_value(body, &headers).0, 403, "{headers}");
    }
}

#[test]
fn nothing_else_is_served() {
    let served = Served::new(Limits::default());
    served.desk.renew();
    for path in [
        "/../secret.svg",
        "/%2e%2e/secret.svg",
        "/figure/all/../../../secret.svg",
        "/figure/all/..%2f..%2fsecret.svg",
        "/page/all/booklet/a4/..%2f1.svg",
        "/page/all/booklet/a4/0.svg",
        "/page/all/booklet/a4/99999999999999999999.svg",
        "/page/all/booklet/a4/1",
        "/page/size-zz/booklet/a4/1.svg",
        "/document/all/booklet/a0",
        "//etc/passwd",
        "/garment.yaml",
        "/apron/garment.yaml",
        "/why/nothing",
        "/state/",
    ] {
        let (status, body) = served.get(path);
        assert_eq!(status, 404, "{path}: {body}");
        assert!(!body.contains("not yours") && !body.contains("Lamplighter"), "{path}: {body}");
    }
}

#[test]
fn odd_requests_are_refused() {
    let limits = Limits { time: Duration::from_millis(400), ..Limits::default() };
    let served = Served::new(limits);
    let host = format!("Host: {}\r\n", served.address);
    let long = "x".repeat(limits.head + 10);
    for (request, status) in [
        (format!("GET /{long} HTTP/1.1\r\n{host}\r\n"), 431),
        (format!("GET / HTTP/1.1\r\n{host}X: {long}\r\n\r\n"), 431),
        (format!("POST /try HTTP/1.1\r\n{host}Content-Length: 99999999999999999999999\r\n\r\n"), 413),
        (format!("POST /try HTTP/1.1\r\n{host}Content-Length: {}\r\n\r\n", limits.body + 1), 413),
        (format!("POST /try HTTP/1.1\r\n{host}Content-Length: -1\r\n\r\n"), 400),
        (format!("POST /try HTTP/1.1\r\n{host}Content-Length: 1\r\nContent-Length: 2\r\n\r\nab"), 400),
        (format!("POST /try HTTP/1.1\r\n{host}Transfer-Encoding: chunked\r\n\r\n0\r\n\r\n"), 400),
        (format!("PUT / HTTP/1.1\r\n{host}\r\n"), 405),
        (format!("CONNECT elsewhere:443 HTTP/1.1\r\n{host}\r\n"), 405),
        (format!("GET http://elsewhere/ HTTP/1.1\r\n{host}\r\n"), 400),
        ("\u{16}\u{3}\u{1}\r\n\r\n".to_string(), 400),
        (format!("GET / HTTP/1.1\r\n{host}"), 408),
        (format!("POST /try HTTP/1.1\r\n{host}Content-Length: 10\r\n\r\nab"), 408),
    ] {
        let (found, answer) = served.raw(request.as_bytes());
        assert_eq!(found, status, "{:?}: {answer}", request.chars().take(60).collect::<String>());
    }
    assert_eq!(served.get("/").0, 200, "and it still answers");
}

/// Many who say nothing, and many who wait for news: the number is bounded, and the page comes when they are gone.
#[test]
fn many_and_slow_clients() {
    let served = Served::new(Limits { time: Duration::from_secs(3), ..Limits::default() });
    let mut silent: Vec<TcpStream> = Vec::new();
    for _ in 0..200 {
        if let Ok(mut stream) = TcpStream::connect(served.address) {
            let _ = stream.write_all(b"GET / HT");
            silent.push(stream);
        }
    }
    let mut refused = 0;
    for stream in &mut silent {
        stream.set_read_timeout(Some(Duration::from_secs(30))).expect("a time limit");
        let mut answer = String::new();
        let _ = stream.read_to_string(&mut answer);
        if answer.contains(" 503 ") {
            refused += 1;
        }
    }
    assert!(refused >= 200 - 48 - 8, "only {refused} of 200 were turned away");
    assert_eq!(served.get("/").0, 200, "the page comes again");
    let host = format!("GET /events HTTP/1.1\r\nHost: {}\r\n\r\n", served.address);
    let mut waiting: Vec<TcpStream> = Vec::new();
    for _ in 0..16 {
        let mut stream = TcpStream::connect(served.address).expect("it listens");
        stream.write_all(host.as_bytes()).expect("it takes a request");
        let mut first = [0; 16];
        stream.read_exact(&mut first).expect("an answer");
        assert!(first.starts_with(b"HTTP/1.1 200"));
        waiting.push(stream);
    }
    assert_eq!(served.raw(host.as_bytes()).0, 503, "one too many waits for news");
    assert_eq!(served.get("/").0, 200, "but the page is served");
}

#[test]
fn what_is_shown_follows_what_is_saved() {
    let served = Served::new(Limits::default());
    assert_eq!(served.json("/state")["garment"], Value::Null);
    served.desk.renew();
    let state = served.json("/state");
    assert_eq!(state["garment"]["title"], "The Lamplighter's Apron");
    assert_eq!(state["garment"]["editions"].as_array().map(Vec::len), Some(4));
    let first = served.json("/document/all/booklet/a4");
    let addresses = |document: &Value| -> Vec<String> {
        document["pages"].as_array().expect("pages").iter().filter_map(Value::as_str).map(str::to_string).collect()
    };
    let before = addresses(&first);
    assert!(before.len() > 5);
    let (status, svg) = served.get(&before[0]);
    assert!(status == 200 && svg.starts_with("<svg"), "{svg:.60}");

    // One word: one page has another address, the others keep theirs, and with it what the browser holds.
    let edited = apron().replace("Let the seam cool before you move it.", "Let it cool before you move it.");
    served.save(&edited);
    let after = addresses(&served.json("/document/all/booklet/a4"));
    assert_eq!(before.len(), after.len());
    assert_eq!(before.iter().zip(&after).filter(|(old, new)| old != new).count(), 1);

    // A fault: told with its line, and the last good pages stay.
    let news = served.json("/state")["news"].as_u64();
    served.save(&edited.replace("drop: knee - 2 in", "drop: kneee - 2 in"));
    let state = served.json("/state");
    assert!(state["news"].as_u64() > news);
    assert_eq!(state["stale"], true);
    assert_eq!(state["faults"][0]["code"], "unknown-name");
    let line = edited.lines().position(|line| line.contains("drop: knee - 2 in")).expect("the line") + 1;
    assert_eq!(state["faults"][0]["line"].as_u64(), Some(line as u64));
    assert_eq!(addresses(&served.json("/document/all/booklet/a4")), after);

    // Mended.
    served.save(&edited);
    let state = served.json("/state");
    assert_eq!(state["stale"], false);
    assert_eq!(addresses(&served.json("/document/all/booklet/a4")), after);
    let figures = served.json("/figures/all");
    assert!(figures.as_array().is_some_and(|figures| !figures.is_empty()));
    let id = figures[0]["id"].as_str().expect("an id");
    assert!(served.get(&format!("/figure/all/{id}.svg")).1.starts_with("<svg"));
}

/// A value is tried: what every size would become is what the garment becomes when the line is written.
#[test]
fn a_value_tried_is_the_value_written() {
    let served = Served::new(Limits::default());
    served.desk.renew();
    let headers = format!("Content-Type: application/json\r\nOrigin: http://{}\r\n", served.address);
    let rows = |served: &Served| -> Vec<(String, Vec<String>)> {
        let numbers = served.json("/numbers");
        let rows = numbers["rows"].as_array().expect("rows").iter();
        rows.map(|row| {
            let values = row["values"].as_array().expect("values").iter().filter_map(Value::as_str);
            (row["name"].as_str().unwrap_or("").to_string(), values.map(str::to_string).collect())
        })
        .collect()
    };
    let before = rows(&served);
    for (route, value, line) in [
        ("[\"numbers\",\"hem_depth\"]", "2 1/2 in", "hem_depth: 2 1/2 in"),
        ("[\"numbers\",\"band_length\"]", "waist / 2 + 1 in", "band_length: waist / 2 + 1 in"),
    ] {
        served.save(&apron());
        let (status, body) = served.try_value(&format!("{{\"route\":{route},\"value\":\"{value}\"}}"), &headers);
        assert_eq!(status, 200, "{body}");
        let tried: Value = serde_json::from_str(&body).expect("JSON");
        assert_eq!(tried["line"], line);
        assert_eq!(rows(&served), before, "nothing is written");
        let at = usize::try_from(tried["at"].as_u64().expect("a line")).expect("a line");
        let mut lines: Vec<String> = apron().lines().map(str::to_string).collect();
        let indent = lines[at - 1].len() - lines[at - 1].trim_start().len();
        lines[at - 1] = format!("{}{line}", " ".repeat(indent));
        served.save(&(lines.join("\n") + "\n"));
        let after = rows(&served);
        let mut said = 0;
        for number in tried["numbers"].as_array().expect("numbers") {
            for size in number["sizes"].as_array().expect("sizes") {
                let column = ["S", "M", "L"].iter().position(|name| size["size"] == *name).expect("a size");
                let (_, values) = after.iter().find(|(name, _)| number["name"] == **name).expect("the number");
                assert_eq!(size["new"], values[column], "{}", number["name"]);
                said += 1;
            }
        }
        let changed: usize = before
            .iter()
            .zip(&after)
            .map(|((_, old), (_, new))| old.iter().zip(new).filter(|(old, new)| old != new).count())
            .sum();
        assert_eq!(said, changed, "every number that changed was told");
        assert!(changed > 0);
    }
    served.save(&apron());
    for (body, says) in [
        ("{\"route\":[\"numbers\",\"hem_depth\"],\"value\":\"2\"}", "faults"),
        ("{\"route\":[\"numbers\",\"nothing\"],\"value\":\"2 in\"}", "refused"),
        ("{\"route\":[\"title\"],\"value\":\"x\"}", "refused"),
        ("{\"route\":[\"numbers\",\"hem_depth\"],\"value\":\"\"}", "refused"),
        ("{\"route\":[\"numbers\",\"hem_depth\"],\"value\":\"a\\nb\"}", "refused"),
    ] {
        let (status, answer) = served.try_value(body, &headers);
        assert_eq!(status, 200);
        let answer: Value = serde_json::from_str(&answer).expect("JSON");
        assert!(
            answer[says].as_array().is_none_or(|list| !list.is_empty()) && !answer[says].is_null(),
            "{body}: {answer}"
        );
    }
    assert_eq!(served.try_value("{\"route\":1}", &headers).0, 400);
}
