//! The browser's driver: a process of our own, or one that runs already.

use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;
use std::{env, fs, thread};

/// One browser window under remote control; gone when dropped, also after a failed test.
pub struct Driver {
    /// Host and port.
    address: String,
    process: Option<Child>,
    session: Option<String>,
}

impl Driver {
    /// Opens a window whose downloads land in `downloads`.
    pub async fn start(downloads: &Path) -> (Self, Client) {
        let mut driver = match env::var("AXLEWRIGHT_CHROMEDRIVER") {
            Ok(url) => Self::running(&url),
            Err(_) => Self::launch(),
        };
        let mut builder = ClientBuilder::new(HttpConnector::new());
        builder.capabilities(capabilities(downloads).as_object().unwrap().clone());
        let url = format!("http://{}", driver.address);
        let client = builder.connect(&url).await;
        let client = client.expect("the browser opens a window");
        driver.session = client.session_id().await.unwrap();
        (driver, client)
    }

    fn running(url: &str) -> Self {
        let address = url.trim_start_matches("http://").trim_end_matches('/');
        Self {
            address: address.to_owned(),
            process: None,
            session: None,
        }
    }

    fn launch() -> Self {
        // The system picks a free port; nobody else takes it in the moment between.
        let free = TcpListener::bind("127.0.0.1:0").unwrap();
        let address = free.local_addr().unwrap().to_string();
        drop(free);
        let port = address.rsplit(':').next().unwrap();
        let program = env::var_os("CHROMEDRIVER").unwrap_or_else(|| "chromedriver".into());
        let process = Command::new(&program)
            .arg(format!("--port={port}"))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn();
        let process = process.unwrap_or_else(|error| panic!("cannot start {program:?}: {error}"));
        let driver = Self {
            address,
            process: Some(process),
            session: None,
        };
        for _ in 0..200 {
            if TcpStream::connect(&driver.address).is_ok() {
                return driver;
            }
            thread::sleep(Duration::from_millis(50));
        }
        panic!("{program:?} does not listen at {}", driver.address)
    }

    /// What the page wrote to the console at this severity since the last call.
    pub fn console(&self, level: &str) -> Vec<String> {
        let answer = self.send("POST", "/se/log", r#"{"type":"browser"}"#);
        let entries = answer["value"].as_array().cloned().unwrap_or_default();
        let matching = entries.iter().filter(|entry| entry["level"] == level);
        matching
            .map(|entry| entry["message"].as_str().unwrap_or_default().to_owned())
            .collect()
    }

    /// One mouse event, with these buttons down after it.
    pub fn mouse(&self, kind: &str, (x, y): (f64, f64), buttons: u32) {
        // A move that does not name the held button ends the page's pointer capture.
        let button = match (kind, buttons) {
            ("mouseMoved", 0) => "none",
            _ => "left",
        };
        let params = json!({
            "type": kind, "x": x, "y": y, "button": button, "buttons": buttons, "clickCount": 1
        });
        let command = json!({ "cmd": "Input.dispatchMouseEvent", "params": params });
        let answer = self.send("POST", "/goog/cdp/execute", &command.to_string());
        assert_eq!(answer["value"], json!({}), "{kind}");
    }

    /// Commands that must work without the asynchronous client: in `drop`, and those that it
    /// does not know.
    fn send(&self, method: &str, command: &str, body: &str) -> Value {
        let session = self.session.as_deref().unwrap_or_default();
        exchange(
            &self.address,
            method,
            &format!("/session/{session}{command}"),
            body,
        )
        .unwrap_or_default()
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        if self.session.is_some() {
            self.send("DELETE", "", "");
        }
        let Some(process) = &mut self.process else {
            return;
        };
        // Asked first, since a killed driver leaves the browser running.
        let _ = exchange(&self.address, "GET", "/shutdown", "");
        for _ in 0..60 {
            if matches!(process.try_wait(), Ok(Some(_))) {
                return;
            }
            thread::sleep(Duration::from_millis(50));
        }
        let _ = process.kill();
        let _ = process.wait();
    }
}

/// What `webdriver.json` says for the wasm tests too, plus what only a page needs.
fn capabilities(downloads: &Path) -> Value {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("webdriver.json");
    let mut capabilities: Value = serde_json::from_slice(&fs::read(file).unwrap()).unwrap();
    capabilities["goog:loggingPrefs"] = json!({ "browser": "ALL" });
    capabilities["goog:chromeOptions"]["prefs"] = json!({
        "download.default_directory": downloads,
        "download.prompt_for_download": false,
    });
    capabilities
}

fn exchange(address: &str, method: &str, path: &str, body: &str) -> Option<Value> {
    let mut stream = TcpStream::connect(address).ok()?;
    stream
        .set_read_timeout(Some(Duration::from_secs(20)))
        .ok()?;
    let length = body.len();
    write!(
        stream,
        "{method} {path} HTTP/1.1\r\nHost: {address}\r\nContent-Type: application/json\r\n\
         Content-Length: {length}\r\n\r\n{body}"
    )
    .ok()?;
    // The driver keeps the connection open, so the end is where its length says.
    let mut answer = BufReader::new(stream);
    let mut length = 0;
    let mut line = String::new();
    while answer.read_line(&mut line).ok()? > 2 {
        let header = line.to_ascii_lowercase();
        if let Some(value) = header.strip_prefix("content-length:") {
            length = value.trim().parse().ok()?;
        }
        line.clear();
    }
    let mut body = vec![0; length];
    answer.read_exact(&mut body).ok()?;
    serde_json::from_slice(&body).ok()
}
