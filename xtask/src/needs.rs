//! What the commands need on the machine: found, installed where that is possible without
//! asking, or named so that a person can install it.

use crate::{native_cargo, run};
use anyhow::{Context, Result, bail};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;
use std::{env, fs, thread};

pub const WASM: &str = "wasm32-unknown-unknown";

/// The distribution's compiler, which comes with the source of its standard library.
const DEBIAN_COMPILER: [&str; 4] = ["rustc-web", "cargo-web", "rust-web-src", "lld-22"];
const DEBIAN_LINKER: &str = "wasm-ld-22";

/// How to compile for wasm on this machine.
pub struct Wasm {
    /// The folder of a compiler of our own making, where rustup could not give us the target.
    pub own: Option<PathBuf>,
}

impl Wasm {
    /// Takes the first way that works, cheapest first.
    pub fn find() -> Result<Self> {
        let own = env::current_dir()?.join("target/wasm-std");
        if target_is_there() {
            return Ok(Self { own: None });
        }
        if !own.join("rustc").exists() {
            println!("the compiler has no {WASM} target yet: asking rustup for it");
            let mut rustup = Command::new("rustup");
            if answers(rustup.args(["target", "add", WASM])) && target_is_there() {
                return Ok(Self { own: None });
            }
            if !debian_root() {
                bail!(
                    "no {WASM} target: install it with `rustup target add {WASM}`, or run this \
                     command once as root on Debian, where packages can stand in for it"
                );
            }
            println!("it could not: building the target with the distribution's compiler");
            apt_install(&DEBIAN_COMPILER)?;
            let script = Path::new("xtask/wasm-std-from-debian.sh");
            run(Command::new("sh").args([script, &own, DEBIAN_LINKER.as_ref()]))?;
        }
        Ok(Self { own: Some(own) })
    }

    /// Where cargo leaves what it compiles for wasm.
    pub fn target_dir(&self) -> PathBuf {
        match &self.own {
            Some(own) => own.join("target"),
            None => env::var_os("CARGO_TARGET_DIR").map_or("target".into(), PathBuf::from),
        }
    }

    /// A cargo command on the planner's package, for wasm.
    pub fn cargo(&self, words: &str) -> Command {
        let mut cargo = native_cargo();
        cargo.args(words.split(' '));
        cargo.args(["--package", "axlewright", "--target", WASM]);
        if let Some(own) = &self.own {
            // What it makes must never mix with what the rustup compiler made.
            cargo.env("CARGO_TARGET_DIR", self.target_dir());
            cargo.env("RUSTC", own.join("rustc"));
            cargo.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", DEBIAN_LINKER);
        }
        cargo
    }
}

fn target_is_there() -> bool {
    let mut rustc = Command::new(env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()));
    rustc.args(["--print", "target-libdir", "--target", WASM]);
    let Ok(answer) = rustc.output() else {
        return false;
    };
    // The folder's name is printed whether or not anything is in it.
    let folder = String::from_utf8_lossy(&answer.stdout).trim().to_owned();
    fs::read_dir(folder).is_ok_and(|files| files.count() > 1)
}

/// Installs what is missing where we may; where not, the step that needs it will say so.
pub fn install(with_browser: bool) {
    let mut packages = Vec::new();
    if with_browser && chromedriver().is_err() {
        packages.extend(["chromium", "chromium-driver"]);
    }
    if !on_path("wasm-opt") {
        packages.push("binaryen");
    }
    if packages.is_empty() || !debian_root() {
        return;
    }
    if let Err(error) = apt_install(&packages) {
        println!("could not install them: {error:#}");
    }
}

/// The browser's driver, as the variable and value that tell the wasm test runner about it.
pub fn chromedriver() -> Result<(&'static str, OsString)> {
    if let Some(address) = env::var_os("AXLEWRIGHT_CHROMEDRIVER") {
        return Ok(("CHROMEDRIVER_REMOTE", address));
    }
    let named = env::var_os("CHROMEDRIVER");
    let found = named.or_else(|| on_path("chromedriver").then(|| "chromedriver".into()));
    let found = found.context(
        "no chromedriver: install Chromium or Chrome, and the chromedriver of the same version \
         on PATH or named in CHROMEDRIVER (on Debian: apt-get install chromium chromium-driver)",
    )?;
    Ok(("CHROMEDRIVER", found))
}

pub fn on_path(program: &str) -> bool {
    let file = format!("{program}{}", env::consts::EXE_SUFFIX);
    env::var_os("PATH").is_some_and(|p| env::split_paths(&p).any(|dir| dir.join(&file).is_file()))
}

/// True where packages can be installed without asking anyone.
fn debian_root() -> bool {
    let release = fs::read_to_string("/etc/os-release").unwrap_or_default();
    let user = Command::new("id").arg("-u").output();
    release.lines().any(|line| line == "ID=debian") && user.is_ok_and(|id| id.stdout == b"0\n")
}

fn apt_install(packages: &[&str]) -> Result<()> {
    // The command's own line says enough; hundreds of lines of its talk would hide ours.
    let install = "apt-get -qq install -y --no-install-recommends";
    let script = format!(
        "apt-get -qq update && {install} {} >/dev/null",
        packages.join(" ")
    );
    let mut shell = Command::new("sh");
    shell
        .env("DEBIAN_FRONTEND", "noninteractive")
        .stdin(Stdio::null());
    run(shell.args(["-c", &script]))
}

/// Whether it succeeded; a server may accept the connection and then stay silent for ever.
fn answers(command: &mut Command) -> bool {
    let Ok(mut child) = command.spawn() else {
        return false;
    };
    for _ in 0..400 {
        if let Ok(Some(status)) = child.try_wait() {
            return status.success();
        }
        thread::sleep(Duration::from_millis(100));
    }
    println!("no answer in 40 s");
    // It may have ended just now; either way it is gone.
    let _ = child.kill();
    let _ = child.wait();
    false
}
