//! What lies in the repository, for tests that go through all of it; and the program itself.
#![allow(dead_code, reason = "each test takes what it needs")]

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The repository.
pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every file below a folder of the repository that ends like this, in the order of the paths.
pub fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    fn walk(dir: &Path, ending: &str, found: &mut Vec<PathBuf>) {
        for entry in std::fs::read_dir(dir).expect("the folder can be listed") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                walk(&path, ending, found);
            } else if path.to_string_lossy().ends_with(ending) {
                found.push(path);
            }
        }
    }
    let mut found = Vec::new();
    walk(&root().join(folder), ending, &mut found);
    found.sort();
    found
}

/// A path as people write it: from the repository, with slashes.
pub fn short(path: &Path) -> String {
    let path = path.strip_prefix(root()).unwrap_or(path);
    path.to_string_lossy().replace('\\', "/")
}

/// Text of a file.
pub fn text(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

/// Every example plan, those that are wrong on purpose too.
pub fn examples() -> Vec<PathBuf> {
    let plans = files("examples", ".json");
    let plans: Vec<PathBuf> = plans
        .into_iter()
        .filter(|p| !p.to_string_lossy().ends_with(".schema.json"))
        .collect();
    assert!(plans.len() >= 6, "{} example plans", plans.len());
    plans
}

/// A folder of a test's own, for what it writes.
pub fn scratch(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::create_dir_all(&folder).expect("a folder of its own");
    folder
}

/// What the program did.
pub struct Ran {
    /// Exit code.
    pub code: i32,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

/// Runs the program.
pub fn run<S: AsRef<std::ffi::OsStr>>(arguments: &[S]) -> Ran {
    run_on(arguments, b"")
}

/// Runs the program with this on its standard input.
pub fn run_on<S: AsRef<std::ffi::OsStr>>(arguments: &[S], input: &[u8]) -> Ran {
    let mut child = Command::new(env!("CARGO_BIN_EXE_axlewright"))
        .args(arguments)
        .current_dir(root())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut stdin = child.stdin.take().expect("its input");
    let input = input.to_vec();
    // Written beside the reading: a program that answers each line would otherwise wait for us.
    let writer = std::thread::spawn(move || {
        let _ = stdin.write_all(&input);
    });
    let output = child.wait_with_output().expect("the program ends");
    writer.join().expect("its input was written");
    Ran {
        code: output.status.code().expect("an exit code"),
        out: String::from_utf8(output.stdout).expect("output is UTF-8"),
        err: String::from_utf8(output.stderr).expect("messages are UTF-8"),
    }
}
