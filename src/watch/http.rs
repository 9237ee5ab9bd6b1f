//! As much of HTTP/1.1 as the page needs: one request a connection, small, soon, or refused.
//!
//! Read: RFC 9112 (messages) and RFC 9110 (semantics). Bodies come with a length only; anything else is refused.

use std::io::{self, Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

/// How much a request may be, and how long it may take.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// The request line and the headers, bytes.
    pub head: usize,
    /// The body, bytes.
    pub body: usize,
    /// From the first byte to the last.
    pub time: Duration,
}

impl Default for Limits {
    fn default() -> Limits {
        Limits { head: 16 * 1024, body: 16 * 1024, time: Duration::from_secs(10) }
    }
}

/// What is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// To be shown.
    Get,
    /// The same without the body.
    Head,
    /// To try something.
    Post,
}

/// A request.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Request {
    /// What is asked for.
    pub method: Method,
    /// The path, percent signs resolved.
    pub path: String,
    /// The query, names and values, percent signs resolved.
    pub query: Vec<(String, String)>,
    /// Headers, names in lower case.
    pub headers: Vec<(String, String)>,
    /// The body.
    pub body: Vec<u8>,
}

impl Request {
    /// A header, if it is there once.
    #[must_use]
    pub fn header(&self, name: &str) -> Option<&str> {
        let mut found = self.headers.iter().filter(|(known, _)| known == name);
        let first = found.next()?;
        found.next().is_none().then_some(first.1.as_str())
    }

    /// A value of the query.
    #[must_use]
    pub fn value(&self, name: &str) -> Option<&str> {
        self.query.iter().find(|(known, _)| known == name).map(|(_, value)| value.as_str())
    }
}

/// An answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Response {
    /// The status.
    pub status: u16,
    /// The kind of body.
    pub kind: &'static str,
    /// Whether a browser may keep it for good: its address changes with its bytes.
    pub lasting: bool,
    /// The body.
    pub body: Vec<u8>,
}

impl Response {
    /// A body that is right now.
    #[must_use]
    pub fn ok(kind: &'static str, body: impl Into<Vec<u8>>) -> Response {
        Response { status: 200, kind, lasting: false, body: body.into() }
    }

    /// JSON.
    #[must_use]
    pub fn json(value: &serde_json::Value) -> Response {
        Response::ok("application/json", value.to_string())
    }

    /// A refusal, in words.
    #[must_use]
    pub fn refused(status: u16, words: &str) -> Response {
        Response { status, kind: "text/plain; charset=utf-8", lasting: false, body: format!("{words}\n").into_bytes() }
    }

    /// With leave to keep it for good.
    #[must_use]
    pub fn lasting(mut self) -> Response {
        self.lasting = true;
        self
    }

    /// The bytes of status line and headers.
    #[must_use]
    pub fn head(&self) -> String {
        let reason = match self.status {
            200 => "OK",
            400 => "Bad Request",
            403 => "Forbidden",
            404 => "Not Found",
            405 => "Method Not Allowed",
            408 => "Request Timeout",
            413 => "Content Too Large",
            431 => "Request Header Fields Too Large",
            503 => "Service Unavailable",
            _ => "Refused",
        };
        let keep = if self.lasting { "private, max-age=31536000, immutable" } else { "no-store" };
        format!(
            "HTTP/1.1 {} {reason}\r\nContent-Type: {}\r\nContent-Length: {}\r\nCache-Control: {keep}\r\n{GUARDS}Connection: close\r\n\r\n",
            self.status,
            self.kind,
            self.body.len()
        )
    }

    /// Writes it.
    ///
    /// # Errors
    /// Where the other side has gone away or does not take it in time.
    pub fn write(&self, to: &mut impl Write, method: Method) -> io::Result<()> {
        to.write_all(self.head().as_bytes())?;
        if method != Method::Head {
            to.write_all(&self.body)?;
        }
        to.flush()
    }
}

/// What every answer tells the browser: nothing from elsewhere, in nobody's frame, no guessing.
pub(super) const GUARDS: &str = "Content-Security-Policy: default-src 'none'; script-src 'self'; style-src 'self'; \
     img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'\r\n\
     X-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\nCross-Origin-Resource-Policy: same-origin\r\n";

/// Reads one request.
///
/// # Errors
/// The answer to give instead; none where there is nobody left to answer.
pub fn read_request(stream: &mut TcpStream, limits: Limits) -> Result<Request, Option<Response>> {
    let until = Instant::now() + limits.time;
    let mut bytes = Vec::new();
    let end = loop {
        if let Some(end) = find(&bytes, b"\r\n\r\n") {
            break end;
        }
        if bytes.len() > limits.head {
            return Err(Some(Response::refused(431, "the request is too long")));
        }
        more(stream, &mut bytes, until)?;
    };
    if end > limits.head {
        return Err(Some(Response::refused(431, "the request is too long")));
    }
    let bad = || Some(Response::refused(400, "this is not a request"));
    let head = std::str::from_utf8(bytes.get(..end).unwrap_or_default()).map_err(|_| bad())?.to_string();
    let mut request = parse_head(&head)?;
    if request.headers.iter().any(|(name, _)| name == "transfer-encoding") {
        return Err(Some(Response::refused(400, "a body comes with its length")));
    }
    let lengths = request.headers.iter().filter(|(name, _)| name == "content-length").count();
    let length = match request.header("content-length") {
        None if lengths == 0 => 0,
        Some(text) if text.bytes().all(|byte| byte.is_ascii_digit()) => text.parse::<usize>().unwrap_or(usize::MAX),
        _ => return Err(bad()),
    };
    if length > limits.body {
        return Err(Some(Response::refused(413, "the request is too large")));
    }
    let from = end + 4;
    while bytes.len() < from + length {
        more(stream, &mut bytes, until)?;
    }
    request.body = bytes.get(from..from + length).unwrap_or_default().to_vec();
    Ok(request)
}

fn more(stream: &mut TcpStream, bytes: &mut Vec<u8>, until: Instant) -> Result<(), Option<Response>> {
    let slow = || Some(Response::refused(408, "the request took too long"));
    let left = until.checked_duration_since(Instant::now()).filter(|left| !left.is_zero()).ok_or_else(slow)?;
    stream.set_read_timeout(Some(left)).map_err(|_| None)?;
    let mut chunk = [0; 4096];
    match stream.read(&mut chunk) {
        Ok(0) => Err(None),
        Ok(count) => {
            bytes.extend_from_slice(chunk.get(..count).unwrap_or_default());
            Ok(())
        }
        Err(error) if matches!(error.kind(), io::ErrorKind::WouldBlock | io::ErrorKind::TimedOut) => Err(slow()),
        Err(error) if error.kind() == io::ErrorKind::Interrupted => Ok(()),
        Err(_) => Err(None),
    }
}

fn parse_head(head: &str) -> Result<Request, Option<Response>> {
    let bad = |words: &str| Some(Response::refused(400, words));
    let mut lines = head.split("\r\n");
    let first: Vec<&str> = lines.next().unwrap_or("").split(' ').collect();
    let [method, target, "HTTP/1.1" | "HTTP/1.0"] = first.as_slice() else { return Err(bad("this is not a request")) };
    let method = match *method {
        "GET" => Method::Get,
        "HEAD" => Method::Head,
        "POST" => Method::Post,
        _ => return Err(Some(Response::refused(405, "nothing here is done that way"))),
    };
    let mut headers = Vec::new();
    for line in lines {
        let (name, value) = line.split_once(':').ok_or_else(|| bad("a header has no colon"))?;
        if name.is_empty() || !name.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-' || byte == b'_') {
            return Err(bad("a header has no name"));
        }
        headers.push((name.to_ascii_lowercase(), value.trim().to_string()));
    }
    let (path, query) = target.split_once('?').unwrap_or((target, ""));
    let path = unescape(path, false).filter(|path| path.starts_with('/')).ok_or_else(|| bad("this is not a path"))?;
    let query = query
        .split('&')
        .filter(|part| !part.is_empty())
        .map(|part| {
            let (name, value) = part.split_once('=').unwrap_or((part, ""));
            Some((unescape(name, true)?, unescape(value, true)?))
        })
        .collect::<Option<Vec<_>>>()
        .ok_or_else(|| bad("this is not a query"))?;
    Ok(Request { method, path, query, headers, body: Vec::new() })
}

/// Percent signs resolved. None where they stand for no text, or for control characters.
fn unescape(text: &str, plus: bool) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        bytes.push(match byte {
            b'%' => {
                let pair = [rest.next()?, rest.next()?];
                u8::from_str_radix(std::str::from_utf8(&pair).ok()?, 16).ok()?
            }
            b'+' if plus => b' ',
            byte => byte,
        });
    }
    String::from_utf8(bytes).ok().filter(|text| !text.chars().any(char::is_control))
}

fn find(bytes: &[u8], what: &[u8]) -> Option<usize> {
    bytes.windows(what.len()).position(|window| window == what)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heads() {
        let head = "GET /a%20b/c?x=1+2&y=%2F HTTP/1.1\r\nHost: localhost:1\r\nX-A: b:c";
        let request = parse_head(head).unwrap();
        assert_eq!(request.path, "/a b/c");
        assert_eq!(request.value("x"), Some("1 2"));
        assert_eq!(request.value("y"), Some("/"));
        assert_eq!(request.header("host"), Some("localhost:1"));
        assert_eq!(request.header("x-a"), Some("b:c"));
        for bad in [
            "GET  / HTTP/1.1",
            "GET / HTTP/2",
            "GET /%0a HTTP/1.1",
            "GET /%zz HTTP/1.1",
            "GET /%f HTTP/1.1",
            "GET /%ff HTTP/1.1",
            "GET http://elsewhere/ HTTP/1.1",
            "GET / HTTP/1.1\r\nno colon",
            "GET / HTTP/1.1\r\n: empty",
            "GET / HTTP/1.1\r\nHost : spaced",
            "DELETE / HTTP/1.1",
            "",
        ] {
            assert!(parse_head(bad).is_err(), "{bad:?}");
        }
        let twice = parse_head("GET / HTTP/1.1\r\nHost: a\r\nHost: b").unwrap();
        assert_eq!(twice.header("host"), None, "a header that stands twice counts as none");
    }
}
