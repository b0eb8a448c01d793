//! Builds the page: the core compiled to wasm, its JavaScript glue, and the size it comes to.

use crate::needs::{self, Wasm};
use crate::{order, run};
use anyhow::{Context, Result, bail};
use flate2::{Compression, write::GzEncoder};
use std::ffi::OsString;
use std::path::Path;
use std::process::Command;
use std::{fs, io::Write};

const LIBRARY: &str = "axlewright_core";
const PKG: &str = "www/pkg";
const BUDGET: &str = ".ci/first-view-budget-kb";

/// What the compiler and the glue use already; every browser of the last years has them.
const WASM_FEATURES: &str = "--enable-bulk-memory --enable-sign-ext --enable-multivalue \
    --enable-nontrapping-float-to-int --enable-reference-types --enable-mutable-globals";

/// The page's programs, each a feature of the core: the first view loads the first one alone.
const PROGRAMS: [&str; 2] = ["planner", "study"];
/// What the page loads when the first view is there and somebody asks for more.
const LATER: [&str; 2] = ["study", "study-worker"];

/// Leaves the page's programs in `www/pkg`, and fails when the first view has grown too large.
pub fn build(wasm: &Wasm) -> Result<()> {
    // Old files would be served, and counted.
    if Path::new(PKG).exists() {
        fs::remove_dir_all(PKG)?;
    }
    for program in PROGRAMS {
        build_program(wasm, program)?;
    }
    keep_to_budget()
}

fn build_program(wasm: &Wasm, name: &str) -> Result<()> {
    run(&mut wasm.cargo(&format!("build --lib --profile web --features {name}")))?;
    let options = format!(
        "wasm-bindgen --target web --no-typescript --remove-name-section \
         --out-name {name} --out-dir {PKG}"
    );
    let words = options.split_whitespace().map(OsString::from);
    let compiled = format!("{}/web/{LIBRARY}.wasm", needs::WASM);
    let words = words.chain([wasm.target_dir().join(compiled).into_os_string()]);
    wasm_bindgen_cli::wasm_bindgen::run_cli_with_args(words)?;

    let program = format!("{PKG}/{name}_bg.wasm");
    let compiled = sizes(&program)?;
    if needs::on_path("wasm-opt") {
        let mut opt = Command::new("wasm-opt");
        // Higher levels save 4 to 8 % of the bytes, and cost 5 to 26 % once compressed.
        opt.arg("-O1").args(WASM_FEATURES.split_whitespace());
        run(opt.args([&program, "-o", &program]))?;
        mend_table_export(&program)?;
    } else {
        println!("no wasm-opt here: the page works, a little larger (Debian: package binaryen)");
    }
    order::by_likeness(&program)?;
    println!(
        "{name}: {compiled} compiled, {} optimised",
        sizes(&program)?
    );
    Ok(())
}

/// The wasm-opt of Debian 12 exports the first table under the name of the glue's own.
fn mend_table_export(program: &str) -> Result<()> {
    let mut module = walrus::Module::from_file(program)?;
    let is_glue = |t: &&walrus::Table| t.element_ty == walrus::RefType::EXTERNREF;
    let glue = module.tables.iter().find(is_glue).map(|table| table.id());
    if let Some(glue) = glue {
        module.exports.remove("__wbindgen_externrefs")?;
        module.exports.add("__wbindgen_externrefs", glue);
    }
    module.emit_wasm_file(program)
}

fn keep_to_budget() -> Result<()> {
    let mut files = Vec::new();
    weigh("www".as_ref(), &mut files)?;
    files.sort_by(|a, b| b.cmp(a));
    let (later, files): (Vec<_>, Vec<_>) = files.into_iter().partition(|(_, path)| is_later(path));
    let sum = |files: &[(usize, String)]| files.iter().map(|(bytes, _)| bytes).sum::<usize>();
    let total = sum(&files);
    let budget = fs::read_to_string(BUDGET).context(BUDGET)?;
    let budget: usize = budget.trim().parse().context(BUDGET)?;
    println!("on demand: {} gzip", kb(sum(&later)));
    println!(
        "first view: {} gzip, budget {budget} kB; largest:",
        kb(total)
    );
    for (bytes, name) in files.iter().take(5) {
        println!("{:>12}  {name}", kb(*bytes));
    }
    if total > budget * 1000 {
        bail!("over the budget in {BUDGET}: make it smaller, or raise it and say why");
    }
    Ok(())
}

fn is_later(path: &str) -> bool {
    let name = path.rsplit(['/', '\\']).next().unwrap_or_default();
    let stem = name.split(['.', '_']).next().unwrap_or_default();
    LATER.contains(&stem)
}

/// Gzip size and name of every file below, each compressed alone as a server does.
fn weigh(folder: &Path, files: &mut Vec<(usize, String)>) -> Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            weigh(&path, files)?;
        } else {
            files.push((gzip_size(&path)?, path.display().to_string()));
        }
    }
    Ok(())
}

fn sizes(program: &str) -> Result<String> {
    let (bytes, gzip) = (fs::read(program)?.len(), gzip_size(program.as_ref())?);
    Ok(format!("{} ({} gzip)", kb(bytes), kb(gzip)))
}

fn gzip_size(path: &Path) -> Result<usize> {
    // The level that servers use.
    let mut gzip = GzEncoder::new(Vec::new(), Compression::default());
    gzip.write_all(&fs::read(path)?)?;
    Ok(gzip.finish()?.len())
}

fn kb(bytes: usize) -> String {
    format!("{:.1} kB", bytes as f64 / 1000.0)
}
