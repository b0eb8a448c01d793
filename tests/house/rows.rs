//! The register of published rows: each is a test, or says why it is none.

use crate::shipped::{root, text};
use serde::Deserialize;
use std::collections::BTreeMap;

/// How many rows the list has.
const ROWS: usize = 116;

#[derive(Deserialize)]
#[serde(rename_all = "lowercase")]
enum Row {
    /// File below `tests/` in which its number stands.
    In(String),
    /// Why it is no test.
    Not(String),
}

/// True when this text holds the number, `ST-5` also as `ST-05`.
fn holds(text: &str, id: &str) -> bool {
    let (family, number) = id.split_once('-').unwrap();
    [id.to_owned(), format!("{family}-0{number}")]
        .iter()
        .any(|id| {
            text.match_indices(id.as_str()).any(|(at, _)| {
                let next = text[at + id.len()..].chars().next();
                !next.is_some_and(|c| c.is_ascii_alphanumeric())
            })
        })
}

#[test]
fn every_row_of_the_list_is_a_test_or_says_why_not() {
    let register = text(&root().join("tests/published/rows.toml"));
    let rows: BTreeMap<String, Row> = toml::from_str(&register).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(rows.len(), ROWS);
    let mut wrong = Vec::new();
    for (id, row) in &rows {
        match row {
            Row::In(file) => {
                let path = root().join("tests").join(file);
                if !path.is_file() || file.ends_with("rows.toml") {
                    wrong.push(format!("{id}: there is no {file}"));
                } else if !holds(&text(&path), id) {
                    wrong.push(format!("{id} does not stand in {file}"));
                }
            }
            Row::Not(why) if why.len() < 20 => {
                wrong.push(format!("{id}: \"{why}\" is no reason"));
            }
            Row::Not(_) => {}
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}
