//! Shows the page: a server for this machine only, and the browser if there is one.

use anyhow::{Result, anyhow};
use rouille::{Request, Response, Server};
use std::env;
use std::process::{Command, Stdio};

/// Serves the page until the person stops it.
pub fn run(port: Option<u16>, browser: bool) -> Result<()> {
    let bind = |port: u16| Server::new(("127.0.0.1", port), answer);
    let server = match port {
        // A port asked for by number is wanted, not a hint.
        Some(port) => bind(port),
        None => bind(8080).or_else(|_| bind(0)),
    };
    let server = server.map_err(|error| anyhow!("cannot serve: {error}"))?;
    let address = format!("http://{}/", server.server_addr());
    println!("\nAxlewright is at {address}   (stop with Ctrl-C)");
    let (opener, needs_display) = match env::consts::OS {
        "macos" => ("open", false),
        "windows" => ("explorer", false),
        _ => ("xdg-open", true),
    };
    let is_set = |name| env::var_os(name).is_some();
    let display = !needs_display || is_set("DISPLAY") || is_set("WAYLAND_DISPLAY");
    if browser && display && !is_set("CI") {
        let mut opener = Command::new(opener);
        // Best effort: the address is printed anyway.
        drop(opener.arg(&address).stderr(Stdio::null()).spawn());
    }
    server.run();
    Ok(())
}

fn answer(request: &Request) -> Response {
    let index = Request::fake_http("GET", "/index.html", vec![], vec![]);
    let asked = if request.url() == "/" {
        &index
    } else {
        request
    };
    // Never from the browser's cache: the next build must show at the next reload.
    let file = rouille::match_assets(asked, "www").with_unique_header("Cache-Control", "no-cache");
    let kind = match request.url().rsplit('.').next() {
        Some("js" | "mjs") => "text/javascript; charset=utf-8",
        Some("toml") => "application/toml; charset=utf-8",
        Some("webmanifest") => "application/manifest+json",
        // The server's own table knows the rest.
        _ => return file,
    };
    if file.is_success() {
        file.with_unique_header("Content-Type", kind)
    } else {
        file
    }
}
