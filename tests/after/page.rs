//! The page as far as it holds what it was told: words and drawings, put together from the changes.

use axlewright_core::drawing::View;
use axlewright_core::web::{Held, Shown};
use serde_json::{Map, Value, from_str, json, to_value};

/// How each drawing ends behind its groups.
const END: &str = "</g>\n</svg>";

#[derive(Default)]
struct Paper {
    number: u32,
    head: String,
    groups: Vec<String>,
}

#[derive(Default)]
pub struct Page {
    pub held: Held,
    words: Map<String, Value>,
    papers: [Paper; 3],
    /// Bytes that it was told, and bytes of the views that it has seen.
    pub told: usize,
    pub whole: usize,
}

fn range(piece: &Value) -> Option<std::ops::Range<usize>> {
    let at = |index| usize::try_from(piece.get(index)?.as_u64()?).ok();
    Some(at(0)?..at(1)?)
}

fn split(drawing: &str) -> (String, Vec<String>) {
    let start = drawing.find("data-axes").unwrap();
    let start = start + drawing[start..].find(">\n").unwrap() + 2;
    let groups = drawing[start..].strip_suffix(END).unwrap();
    let groups = groups.split_inclusive("</g>\n").map(str::to_owned);
    (drawing[..start].to_owned(), groups.collect())
}

impl Paper {
    fn put(&mut self, told: &str) {
        let Some((line, drawing)) = told.split_once('\n') else {
            return;
        };
        let (number, pieces) = line.split_once(' ').unwrap_or((line, ""));
        self.number = number.parse().unwrap();
        let (head, came) = split(drawing);
        self.head = head;
        if pieces.is_empty() {
            self.groups = came;
            return;
        }
        let mut came = came.into_iter();
        let mut groups = Vec::new();
        for piece in from_str::<Vec<Value>>(pieces).unwrap() {
            match range(&piece) {
                Some(kept) => groups.extend_from_slice(&self.groups[kept]),
                None => {
                    let many = usize::try_from(piece.as_u64().unwrap()).unwrap();
                    groups.extend(came.by_ref().take(many));
                }
            }
        }
        assert_eq!(came.next(), None);
        self.groups = groups;
    }
}

impl Page {
    /// Is told a view and compares what it holds then with the whole of it. One that forgets says so.
    pub fn see(&mut self, shown: Shown, forgets: bool, what: &str) {
        let words = to_value(&shown.words).unwrap();
        let have = self.words.get("number").and_then(Value::as_u64);
        let have = have.filter(|_| !forgets).unwrap_or(0);
        let told = self.held.show(shown, have.try_into().unwrap()).unwrap();
        self.told += told.len();
        self.whole += words.to_string().len();
        for (name, value) in from_str::<Map<String, Value>>(&told).unwrap() {
            let value = match value {
                Value::Array(list) => self.list(&name, list),
                other => other,
            };
            self.words.insert(name, value);
        }
        for (name, value) in words.as_object().unwrap() {
            assert_eq!(self.words[name], *value, "{what}: {name}");
        }
        for (index, view) in View::ALL.into_iter().enumerate() {
            let paper = &mut self.papers[index];
            let told = self
                .held
                .picture(index, if forgets { 0 } else { paper.number });
            paper.put(&told);
            let whole = self.held.shown().unwrap().drawing(view);
            self.told += told.len();
            self.whole += whole.len();
            let made = format!("{}{}{END}", paper.head, paper.groups.concat());
            assert_eq!(made, whole, "{what}, {}", view.word());
        }
    }

    fn list(&self, name: &str, list: Vec<Value>) -> Value {
        let whole = list.into_iter().flat_map(|each| match range(&each) {
            Some(kept) => self.words[name].as_array().unwrap()[kept].to_vec(),
            None => vec![each],
        });
        json!(whole.collect::<Vec<_>>())
    }
}
