//! Build script of the planner: packs the shipped TOML files into one JSON text without comments.
//!
//! The page then needs no TOML reader to start and loads half the bytes. The tests read every file
//! as a person's own, with all its checks, before anybody sees the packed one.

use serde_json::Value;
use std::error::Error;
use std::path::{Path, PathBuf};
use std::{env, fs};

const FOLDERS: [&str; 3] = ["chassis-templates", "parts-catalogue", "src/law"];

fn main() -> Result<(), Box<dyn Error>> {
    let root = PathBuf::from(env::var("CARGO_MANIFEST_DIR")?);
    let mut packed: Vec<(String, Value)> = Vec::new();
    for folder in FOLDERS {
        println!("cargo::rerun-if-changed={folder}");
        let mut files = Vec::new();
        for entry in fs::read_dir(root.join(folder))? {
            let path = entry?.path();
            if path.extension().is_some_and(|end| end == "toml") {
                files.push(path);
            }
        }
        files.sort();
        for path in files {
            println!("cargo::rerun-if-changed={}", path.display());
            packed.push(read(&path)?);
        }
    }
    println!("cargo::rerun-if-changed=xtask/pack.rs");
    let out = Path::new(&env::var("OUT_DIR")?).join("library.json");
    fs::write(out, serde_json::to_string(&packed)?)?;
    Ok(())
}

fn read(path: &Path) -> Result<(String, Value), Box<dyn Error>> {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let text = fs::read_to_string(path)?;
    let value = toml::from_str(&text).map_err(|e| format!("{}: {e}", path.display()))?;
    Ok((name.into_owned(), value))
}
