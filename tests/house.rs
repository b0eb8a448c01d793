//! The rules of the house, read from the sources: which floor may use which, how long a file may be,
//! what does not belong in the core or in the page, and that checks have names of their own.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests"
)]

mod house {
    mod alike;
    mod checks;
    mod examples;
    mod floors;
    mod page;
    mod pages;
    mod rows;
    mod sources;
}
mod shipped;

use shipped::{files, short, text};
use std::collections::BTreeMap;

/// A source file without its own tests, comments and the inside of its texts.
fn code(source: &str) -> String {
    let source = source
        .split("#[cfg(test)]\nmod tests")
        .next()
        .unwrap_or_default();
    let mut out = String::new();
    for line in source.lines() {
        let mut in_text = false;
        let mut before = ' ';
        let mut letters = line.chars().peekable();
        while let Some(c) = letters.next() {
            let starts_comment = !in_text && c == '/' && letters.peek() == Some(&'/');
            if starts_comment {
                break;
            }
            let quote = c == '"' && before != '\\' && (in_text || before != '\'');
            if quote {
                in_text = !in_text;
            }
            if quote || !in_text {
                out.push(c);
            }
            before = if c == '\\' && before == '\\' { ' ' } else { c };
        }
        out.push('\n');
    }
    out
}

fn sources() -> BTreeMap<String, String> {
    files("src", ".rs")
        .iter()
        .map(|path| (short(path), text(path)))
        .collect()
}

/// The module of a source file: `src/loads/case.rs` belongs to `loads`.
fn module(path: &str) -> &str {
    let path = path.strip_prefix("src/").unwrap();
    path.split('/').next().unwrap().trim_end_matches(".rs")
}
