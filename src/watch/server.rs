//! The server: a loopback address, a bounded number of connections, and nobody from elsewhere.

use std::io::{self, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;
use std::time::Duration;

use super::desk::Desk;
use super::http::{GUARDS, Limits, Method, Request, Response, read_request};
use super::routes::answer;

/// How many connections are served at once.
const CONNECTIONS: usize = 48;
/// How many of them may be waiting for news.
const WAITING: usize = 16;
/// How long a browser may take to accept bytes.
const WRITE: Duration = Duration::from_secs(10);
/// How often somebody waiting is asked whether he is still there.
const ALIVE: Duration = Duration::from_secs(10);

/// A server of one desk.
pub struct Server {
    listener: TcpListener,
    desk: Arc<Desk>,
    limits: Limits,
}

/// Counts one connection as long as it lives.
struct Counted(Arc<AtomicUsize>);

impl Counted {
    /// One more, if there is room.
    fn one(count: &Arc<AtomicUsize>, most: usize) -> Option<Counted> {
        let taken = count.fetch_update(Ordering::SeqCst, Ordering::SeqCst, |now| (now < most).then_some(now + 1));
        taken.ok().map(|_| Counted(count.clone()))
    }
}

impl Drop for Counted {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::SeqCst);
    }
}

impl Server {
    /// Listens on this machine alone. Port 0 takes any that is free.
    ///
    /// # Errors
    /// Where the port is taken.
    pub fn bind(port: u16, desk: Arc<Desk>) -> io::Result<Server> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))?;
        Ok(Server { listener, desk, limits: Limits::default() })
    }

    /// With other limits.
    #[must_use]
    pub fn limits(mut self, limits: Limits) -> Server {
        self.limits = limits;
        self
    }

    /// Where it listens.
    ///
    /// # Errors
    /// What the system says.
    pub fn address(&self) -> io::Result<SocketAddr> {
        self.listener.local_addr()
    }

    /// Serves until `stop` is set and one more connection comes.
    ///
    /// # Errors
    /// Where the address is lost.
    pub fn serve(self, stop: &Arc<AtomicBool>) -> io::Result<()> {
        let port = self.address()?.port();
        let open = Arc::new(AtomicUsize::new(0));
        let waiting = Arc::new(AtomicUsize::new(0));
        for stream in self.listener.incoming() {
            if stop.load(Ordering::SeqCst) {
                return Ok(());
            }
            let Ok(mut stream) = stream else { continue };
            let _ = stream.set_write_timeout(Some(WRITE));
            let _ = stream.set_nodelay(true);
            let Some(counted) = Counted::one(&open, CONNECTIONS) else {
                let _ = Response::refused(503, "too many connections at once").write(&mut stream, Method::Get);
                continue;
            };
            let (desk, waiting, limits) = (self.desk.clone(), waiting.clone(), self.limits);
            let spawned = thread::Builder::new().name("page".to_string()).spawn(move || {
                let _counted = counted;
                connection(&mut stream, &desk, port, limits, &waiting);
            });
            // A thread that cannot be had is a connection too many.
            drop(spawned);
        }
        Ok(())
    }
}

fn connection(stream: &mut TcpStream, desk: &Desk, port: u16, limits: Limits, waiting: &Arc<AtomicUsize>) {
    let request = match read_request(stream, limits) {
        Ok(request) => request,
        Err(Some(refusal)) => {
            let _ = refusal.write(stream, Method::Get);
            return;
        }
        Err(None) => return,
    };
    if let Err(refusal) = at_home(&request, port) {
        let _ = refusal.write(stream, request.method);
        return;
    }
    if request.path == "/events" && request.method == Method::Get {
        match Counted::one(waiting, WAITING) {
            Some(_counted) => {
                let _ = events(stream, desk);
            }
            None => {
                let _ = Response::refused(503, "too many pages are open").write(stream, request.method);
            }
        }
        return;
    }
    let _ = answer(desk, &request).write(stream, request.method);
}

/// Whether the request names this machine, and comes from a page of this server or from nobody's.
///
/// A page of another site can make a browser send requests here, also under a name of its own that it points at this machine;
/// the names in the request tell.
fn at_home(request: &Request, port: u16) -> Result<(), Response> {
    let names = [format!("127.0.0.1:{port}"), format!("localhost:{port}")];
    let host = request.header("host").unwrap_or("");
    if !names.iter().any(|name| name == host) {
        return Err(Response::refused(403, "this page is served to this machine alone"));
    }
    let origins = request.headers.iter().filter(|(name, _)| name == "origin");
    let foreign = |origin: &str| !names.iter().any(|name| origin == format!("http://{name}"));
    if origins.clone().any(|(_, origin)| foreign(origin)) {
        return Err(Response::refused(403, "the request comes from another site"));
    }
    let site = request.header("sec-fetch-site").unwrap_or("none");
    if !matches!(site, "none" | "same-origin") {
        return Err(Response::refused(403, "the request comes from another site"));
    }
    if request.method == Method::Post {
        let json = request.header("content-type").is_some_and(|kind| kind.starts_with("application/json"));
        if origins.count() != 1 || !json {
            return Err(Response::refused(403, "the request does not come from the page"));
        }
    }
    Ok(())
}

/// News: a line whenever there is something new to show. Read: HTML Living Standard, 9.2 Server-sent events.
fn events(stream: &mut TcpStream, desk: &Desk) -> io::Result<()> {
    write!(
        stream,
        "HTTP/1.1 200 OK\r\nContent-Type: text/event-stream\r\nCache-Control: no-store\r\n{GUARDS}Connection: close\r\n\r\n"
    )?;
    let mut told = None;
    loop {
        let now = desk.wait(told, ALIVE);
        if told == Some(now) {
            stream.write_all(b": still here\n\n")?;
        } else {
            write!(stream, "data: {now}\n\n")?;
            told = Some(now);
        }
        stream.flush()?;
    }
}
