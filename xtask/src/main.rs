//! The project's commands: `open` shows the planner, `test` runs everything that CI runs.
// Steps are timed for the person waiting; the ban on clocks is for the planner's own code.
#![allow(clippy::disallowed_methods)]

mod needs;
mod order;
mod page;
mod serve;

use anyhow::{Context, Result, bail};
use needs::Wasm;
use std::env;
use std::ffi::OsStr;
use std::process::{Command, ExitCode};
use std::time::Instant;

const USAGE: &str = "\
cargo xtask open [--no-browser] [--port N]   build the page, serve it, show it
cargo xtask build                            build the page into www/pkg
cargo xtask test [STEP...]                   everything CI runs, or only the steps named";

fn main() -> ExitCode {
    let args: Vec<String> = env::args().skip(1).collect();
    if let Err(error) = dispatch(&args) {
        eprintln!("error: {error:#}");
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

fn dispatch(args: &[String]) -> Result<()> {
    // Paths below are relative to the repository, wherever the command was started.
    env::set_current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))?;
    let words: Vec<&str> = args.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["open", options @ ..] => open(options),
        ["build"] => {
            needs::install(false);
            page::build(&Wasm::find()?)
        }
        ["test", only @ ..] => test(only),
        // Cargo calls us with the compiled tests; see `wasm_tests`.
        ["wasm-runner", ..] => wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(args),
        _ => bail!("the commands are\n{USAGE}"),
    }
}

fn open(options: &[&str]) -> Result<()> {
    let mut port = None;
    let mut browser = true;
    let mut options = options.iter();
    while let Some(option) = options.next() {
        match *option {
            "--no-browser" => browser = false,
            "--port" => {
                let number = options.next().and_then(|text| text.parse().ok());
                port = Some(number.context("--port wants a number up to 65535")?);
            }
            _ => bail!("unknown option `{option}`; the commands are\n{USAGE}"),
        }
    }
    needs::install(false);
    page::build(&Wasm::find()?)?;
    serve::run(port, browser)
}

fn test(only: &[&str]) -> Result<()> {
    let started = Instant::now();
    let steps = [
        ("format", "the source is formatted"),
        ("lint", "no lint warnings, native and wasm"),
        ("native", "native tests and doc tests"),
        ("page", "the page builds and keeps to its size budget"),
        ("wasm", "wasm tests in a headless browser"),
        ("browser", "the page in a headless browser"),
    ];
    if let Some(name) = only.iter().find(|n| steps.iter().all(|s| s.0 != **n)) {
        bail!(
            "no step `{name}`; the steps are {}",
            steps.map(|s| s.0).join(", ")
        );
    }
    needs::install(true);
    let wasm = Wasm::find()?;
    let mut timings = String::new();
    let mut passed = 0;
    for (name, what) in steps {
        if !only.is_empty() && !only.contains(&name) {
            continue;
        }
        println!("\n== {name}: {what}");
        let begun = Instant::now();
        step(name, &wasm).with_context(|| format!("step `{name}` failed"))?;
        timings += &format!("{name:>8} {:6.1} s\n", begun.elapsed().as_secs_f64());
        passed += 1;
    }
    let all = started.elapsed().as_secs_f64();
    println!("\n{timings}     all {all:6.1} s\nsteps: {passed} passed, 0 failed");
    Ok(())
}

fn step(name: &str, wasm: &Wasm) -> Result<()> {
    match name {
        "format" => cargo("fmt --all --check"),
        "lint" => {
            cargo("clippy --workspace --all-targets -- -D warnings")?;
            if wasm.own.is_some() {
                println!("the distribution's compiler has no clippy: no wasm lints here");
                return Ok(());
            }
            run(wasm
                .cargo("clippy --lib --test wasm --features planner,study")
                .args(["--", "-D", "warnings"]))
        }
        "native" => cargo("test --workspace"),
        "page" => page::build(wasm),
        "wasm" => wasm_tests(wasm),
        _ => {
            needs::chromedriver()?;
            // One at a time: timings and screenshots suffer when browsers share the cores.
            cargo("test --workspace --test browser -- --ignored --test-threads=1")
        }
    }
}

fn wasm_tests(wasm: &Wasm) -> Result<()> {
    let this = env::current_exe()?.display().to_string();
    // A list, since cargo splits a plain string at every space in the path.
    let runner = format!("target.{}.runner=[{this:?}, \"wasm-runner\"]", needs::WASM);
    let mut cargo = wasm.cargo("test --test wasm");
    cargo.args(["--config", &runner]);
    // The runner's own 20 s are short for an unoptimised build on a busy machine.
    cargo.env("WASM_BINDGEN_TEST_TIMEOUT", "180");
    let (variable, driver) = needs::chromedriver()?;
    run(cargo.env(variable, driver))
}

fn cargo(words: &str) -> Result<()> {
    run(native_cargo().args(words.split(' ')))
}

/// The cargo that started us, with the toolchain that the person chose.
fn native_cargo() -> Command {
    Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

/// Runs a command in view of the person, and fails when it does.
fn run(command: &mut Command) -> Result<()> {
    let words: Vec<_> = command.get_args().map(OsStr::to_string_lossy).collect();
    let program = command.get_program().to_string_lossy();
    let program = program.rsplit(['/', '\\']).next().unwrap_or_default();
    let shown = format!("{program} {}", words.join(" "));
    println!("\n$ {shown}");
    let status = command.status().with_context(|| shown.clone())?;
    if !status.success() {
        bail!("{shown}: {status}");
    }
    Ok(())
}
