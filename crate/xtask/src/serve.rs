//! Serves the built page on this machine: a small static file server on the loopback address.

use std::fs;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::thread;
use std::time::Duration;

use crate::Failure;

/// The port unless told otherwise, and how many more are tried when it is busy.
const PORT: u16 = 8137;
const TRIES: u16 = 20;

/// A request line and its headers are no longer than this.
const LONGEST_HEAD: u64 = 16 * 1024;

/// How long a browser may take to ask, or to take what it asked for.
const PATIENCE: Duration = Duration::from_secs(20);

/// Reads `--port N`.
pub fn port(words: &[String]) -> Result<u16, Failure> {
    let value = match words {
        [] => return Ok(PORT),
        [name, value] if name == "--port" => value.as_str(),
        [word] if word.starts_with("--port=") => &word["--port=".len()..],
        _ => return Err(format!("serve takes --port N, not: {}", words.join(" "))),
    };
    value.parse().map_err(|_| format!("--port takes a number from 0 to 65535, not: {value}"))
}

/// Serves the folder until the program is stopped.
pub fn serve(site: &Path, port: u16) -> Result<(), Failure> {
    let listener = listen(port)?;
    let address = listener.local_addr().map_err(|error| error.to_string())?;
    if port != 0 && address.port() != port {
        println!("port {port} is busy, so another one is used");
    }
    println!("http://{address}/");
    println!("Press Ctrl+C to stop.");
    let site = fs::canonicalize(site).map_err(|error| format!("{}: {error}", site.display()))?;
    for stream in listener.incoming().flatten() {
        let site = site.clone();
        thread::spawn(move || {
            // A browser that goes away in the middle is no fault of the server.
            let _ = answer(&stream, &site);
        });
    }
    Ok(())
}

/// The first free port from `port` on.
fn listen(port: u16) -> Result<TcpListener, Failure> {
    let last = port.saturating_add(TRIES);
    for port in port..=last {
        match TcpListener::bind((Ipv4Addr::LOCALHOST, port)) {
            Ok(listener) => return Ok(listener),
            Err(error) if error.kind() == io::ErrorKind::AddrInUse => {}
            Err(error) => return Err(format!("port {port}: {error}")),
        }
    }
    Err(format!("the ports {port} to {last} are all busy: name another with --port"))
}

/// Reads one request and answers it.
fn answer(mut stream: &TcpStream, site: &Path) -> io::Result<()> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    let mut head = BufReader::new(stream.take(LONGEST_HEAD));
    let mut first = String::new();
    head.read_line(&mut first)?;
    let mut header = String::new();
    // Read to the end, or closing the connection could throw away the answer.
    while head.read_line(&mut header)? > 2 {
        header.clear();
    }
    let reply = reply(&first, site);
    stream.write_all(reply.head().as_bytes())?;
    if !first.starts_with("HEAD ") {
        stream.write_all(&reply.body)?;
    }
    stream.flush()
}

/// What goes back.
struct Reply {
    status: &'static str,
    /// One more header, such as the type or where to look instead.
    header: String,
    body: Vec<u8>,
}

impl Reply {
    fn plain(status: &'static str, header: &str) -> Reply {
        let header = format!("Content-Type: text/plain; charset=utf-8{header}");
        Reply { status, header, body: format!("{status}\n").into_bytes() }
    }

    fn head(&self) -> String {
        // The browser asks each time: the next build is offered by the page at once.
        format!(
            "HTTP/1.1 {}\r\n{}\r\nContent-Length: {}\r\nCache-Control: no-cache\r\n\
             X-Content-Type-Options: nosniff\r\nConnection: close\r\n\r\n",
            self.status,
            self.header,
            self.body.len()
        )
    }
}

/// The answer to a request line.
fn reply(line: &str, site: &Path) -> Reply {
    let mut words = line.split_ascii_whitespace();
    let (Some(method), Some(target)) = (words.next(), words.next()) else {
        return Reply::plain("400 Bad Request", "");
    };
    if method != "GET" && method != "HEAD" {
        return Reply::plain("405 Method Not Allowed", "\r\nAllow: GET, HEAD");
    }
    let path = target.split(['?', '#']).next().unwrap_or_default();
    let Some(mut file) = locate(site, path) else {
        return Reply::plain("404 Not Found", "");
    };
    if file.is_dir() {
        if !path.ends_with('/') {
            // Without the slash the page's relative addresses would miss its folder. Two slashes
            // at the start would name another host.
            let to = format!("\r\nLocation: /{}/", path.trim_start_matches('/'));
            return Reply::plain("301 Moved Permanently", &to);
        }
        file.push("index.html");
    }
    match fs::read(&file) {
        Ok(body) => {
            Reply { status: "200 OK", header: format!("Content-Type: {}", kind(&file)), body }
        }
        Err(_) => Reply::plain("404 Not Found", ""),
    }
}

/// The file or folder under the site that a path names; nothing that lies outside it.
fn locate(site: &Path, path: &str) -> Option<PathBuf> {
    let relative = decode(path.strip_prefix('/')?)?;
    let relative = Path::new(&relative);
    if !relative.components().all(|part| matches!(part, Component::Normal(_))) {
        return None;
    }
    // A link could still lead out.
    let found = fs::canonicalize(site.join(relative)).ok()?;
    found.starts_with(site).then_some(found)
}

/// Turns `%20` and its like back into what they stand for.
fn decode(path: &str) -> Option<String> {
    let mut bytes = path.bytes();
    let mut out = Vec::with_capacity(path.len());
    while let Some(byte) = bytes.next() {
        if byte == b'%' {
            let digit = |byte: Option<u8>| char::from(byte?).to_digit(16);
            let (high, low) = (digit(bytes.next())?, digit(bytes.next())?);
            out.push(u8::try_from(high * 16 + low).ok()?);
        } else {
            out.push(byte);
        }
    }
    String::from_utf8(out).ok().filter(|text| !text.contains('\0'))
}

/// The media type by the file's ending.
fn kind(file: &Path) -> &'static str {
    match file.extension().and_then(|ending| ending.to_str()).unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "wasm" => "application/wasm",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "webp" => "image/webp",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "csv" => "text/csv; charset=utf-8",
        "txt" | "md" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A site with a page, a module, a folder, and a secret beside it.
    struct Site(PathBuf);

    impl std::ops::Deref for Site {
        type Target = Path;
        fn deref(&self) -> &Path {
            &self.0
        }
    }

    impl Drop for Site {
        fn drop(&mut self) {
            if let Some(root) = self.0.parent() {
                let _ = fs::remove_dir_all(root);
            }
        }
    }

    fn site(name: &str) -> Site {
        let root = std::env::temp_dir().join(format!("xtask-serve-{name}-{}", std::process::id()));
        fs::create_dir_all(root.join("site/deep")).unwrap();
        fs::write(root.join("secret.txt"), "secret").unwrap();
        for (file, text) in
            [("index.html", "<!doctype html>"), ("a b.wasm", "module"), ("deep/index.html", "deep")]
        {
            fs::write(root.join("site").join(file), text).unwrap();
        }
        Site(fs::canonicalize(root.join("site")).unwrap())
    }

    fn ask(site: &Path, line: &str) -> (String, String) {
        let reply = reply(line, site);
        (reply.head(), String::from_utf8(reply.body).unwrap())
    }

    #[test]
    fn files_come_with_their_type() {
        let site = site("types");
        let (head, body) = ask(&site, "GET /?scenario=x HTTP/1.1");
        assert!(head.starts_with("HTTP/1.1 200 OK\r\nContent-Type: text/html"), "{head}");
        assert_eq!(body, "<!doctype html>");
        let (head, body) = ask(&site, "GET /a%20b.wasm HTTP/1.1");
        assert!(head.contains("Content-Type: application/wasm\r\nContent-Length: 6\r\n"), "{head}");
        assert_eq!(body, "module");
        for (file, wanted) in [
            ("x.js", "text/javascript; charset=utf-8"),
            ("x.webmanifest", "application/manifest+json"),
            ("x.woff2", "font/woff2"),
            ("x.svg", "image/svg+xml"),
            ("x.json", "application/json"),
            ("x", "application/octet-stream"),
        ] {
            assert_eq!(kind(Path::new(file)), wanted);
        }
    }

    #[test]
    fn a_folder_is_its_page() {
        let site = site("folder");
        assert_eq!(ask(&site, "GET /deep/ HTTP/1.1").1, "deep");
        let (head, _) = ask(&site, "GET /deep HTTP/1.1");
        assert!(head.contains("301 ") && head.contains("\r\nLocation: /deep/\r\n"), "{head}");
        let (head, _) = ask(&site, "GET //deep HTTP/1.1");
        assert!(!head.contains("Location: //"), "{head}");
    }

    #[test]
    fn nothing_outside_is_served() {
        let site = site("outside");
        #[cfg(unix)]
        let _ = std::os::unix::fs::symlink(site.join("../secret.txt"), site.join("link.txt"));
        for path in [
            "/../secret.txt",
            "/deep/../../secret.txt",
            "/%2e%2e/secret.txt",
            "/..%2fsecret.txt",
            "/link.txt",
            "//etc/passwd",
            "/%00",
            "/%zz",
            "/%",
            "secret.txt",
            "/none",
        ] {
            let (head, body) = ask(&site, &format!("GET {path} HTTP/1.1"));
            assert!(head.starts_with("HTTP/1.1 404 "), "{path}: {head}");
            assert!(!body.contains("secret"), "{path}");
        }
        assert!(ask(&site, "POST / HTTP/1.1").0.starts_with("HTTP/1.1 405 "));
        assert!(ask(&site, "\r\n").0.starts_with("HTTP/1.1 400 "));
    }

    #[test]
    fn over_the_wire_a_head_has_no_body() {
        let site = site("wire");
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap();
        let address = listener.local_addr().unwrap();
        let server = thread::spawn(move || {
            for stream in listener.incoming().take(2).flatten() {
                answer(&stream, &site).unwrap();
            }
        });
        let ask = |method: &str| {
            let mut stream = TcpStream::connect(address).unwrap();
            write!(stream, "{method} / HTTP/1.1\r\nHost: x\r\n\r\n").unwrap();
            let mut text = String::new();
            stream.read_to_string(&mut text).unwrap();
            text
        };
        assert!(ask("GET").ends_with("\r\n\r\n<!doctype html>"));
        let head = ask("HEAD");
        assert!(head.contains("Content-Length: 15\r\n") && head.ends_with("\r\n\r\n"), "{head}");
        server.join().unwrap();
    }

    #[test]
    fn a_busy_port_gives_the_next() {
        let busy = listen(PORT).unwrap();
        let port = busy.local_addr().unwrap().port();
        let next = listen(port).unwrap().local_addr().unwrap().port();
        assert!(next > port && next <= port + TRIES);
    }

    #[test]
    fn the_port_is_read_or_refused_with_its_range() {
        let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        assert_eq!(port(&[]), Ok(PORT));
        assert_eq!(port(&words("--port 9000")), Ok(9000));
        assert_eq!(port(&words("--port=9000")), Ok(9000));
        assert!(port(&words("--port 70000")).unwrap_err().contains("65535"));
        assert!(port(&words("--port")).is_err());
        assert!(port(&words("9000")).is_err());
    }
}
