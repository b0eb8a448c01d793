//! The command `axlewright`.

#[cfg(not(target_arch = "wasm32"))]
fn main() -> std::process::ExitCode {
    axlewright_core::cli::run()
}

#[cfg(target_arch = "wasm32")]
fn main() {}
