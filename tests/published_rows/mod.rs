//! Rows of published figures in a TOML of their own: given, expected, tolerance and why.

use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    row: Vec<Row>,
}

/// One figure or several.
#[derive(Clone, Deserialize)]
#[serde(untagged)]
pub enum Numbers {
    One(f64),
    Many(Vec<f64>),
}

impl Numbers {
    pub fn list(&self) -> Vec<f64> {
        match self {
            Self::One(one) => vec![*one],
            Self::Many(many) => many.clone(),
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    pub id: String,
    pub source: String,
    pub known: String,
    pub given: BTreeMap<String, Numbers>,
    pub expected: BTreeMap<String, Numbers>,
    #[serde(default)]
    pub abs: f64,
    #[serde(default)]
    pub rel: f64,
    pub why: String,
}

impl Row {
    pub fn many(&self, key: &str) -> Vec<f64> {
        let found = self.given.get(key);
        found
            .unwrap_or_else(|| panic!("{}: nothing given as {key}", self.id))
            .list()
    }

    pub fn one(&self, key: &str) -> f64 {
        self.many(key)[0]
    }
}

/// Puts every row's question and compares.
pub fn compare(text: &str, answer: impl Fn(&Row) -> Vec<(&'static str, Vec<f64>)>) {
    let file: File = toml::from_str(text).unwrap_or_else(|e| panic!("{e}"));
    let ids: BTreeSet<&str> = file.row.iter().map(|r| r.id.as_str()).collect();
    assert_eq!(ids.len(), file.row.len(), "an id is used twice");
    let mut misses = Vec::new();
    for row in &file.row {
        assert!(row.source.len() > 4 && row.why.len() > 4, "{}", row.id);
        assert!(
            ["read", "rule-read", "derived", "memory"].contains(&row.known.as_str()),
            "{}",
            row.id
        );
        assert!(row.abs > 0.0 || row.rel > 0.0, "{}: how near?", row.id);
        let answers = answer(row);
        let asked: BTreeSet<&str> = row.expected.keys().map(String::as_str).collect();
        let given: BTreeSet<&str> = answers.iter().map(|(key, _)| *key).collect();
        assert_eq!(asked, given, "{}: answers and expectations", row.id);
        for (key, found) in answers {
            let wanted = row.expected[key].list();
            assert_eq!(found.len(), wanted.len(), "{} {key}", row.id);
            for (found, wanted) in found.into_iter().zip(wanted) {
                let off = (found - wanted).abs();
                if off.is_nan() || off > row.abs + row.rel * wanted.abs() {
                    misses.push(format!("{} {key}: found {found}, wanted {wanted}", row.id));
                }
            }
        }
    }
    assert!(misses.is_empty(), "\n{}", misses.join("\n"));
}
