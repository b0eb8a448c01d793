//! What a person reads off the page.

use crate::page::Page;

/// Reading the page of this project, beside what any page can do.
pub trait Seen {
    async fn ready(&self);
    async fn choose(&self, panel: &str);
    async fn bars(&self) -> String;
    async fn steer(&self) -> f64;
    async fn field(&self, panel: &str, field: &str) -> f64;
    async fn part_field(&self, axis: &str) -> f64;
}

impl Seen for Page {
    async fn ready(&self) {
        self.wait_for("html[data-ready]").await;
    }

    /// Opens a panel; leaves the focus alone when it is open.
    async fn choose(&self, panel: &str) {
        let tab = format!("#tab-{panel}");
        if self.attr(&tab, "aria-selected").await.as_deref() != Some("true") {
            self.click(&tab).await;
        }
    }

    /// The axle bars as text.
    async fn bars(&self) -> String {
        self.text("#bars").await
    }

    /// Load on the first axle.
    async fn steer(&self) -> f64 {
        figure(&self.text("#bars li:first-child .load").await)
    }

    async fn field(&self, panel: &str, field: &str) -> f64 {
        self.choose(panel).await;
        let input = format!(r#"[data-field="{field}"] input[type="text"]"#);
        figure(&self.prop(&input, "value").await.unwrap())
    }

    /// A coordinate of the chosen part; leaves the panel open.
    async fn part_field(&self, axis: &str) -> f64 {
        self.choose("part").await;
        let input = format!(r#"#panel-part [data-field$="{axis}"] input[type="text"]"#);
        figure(&self.prop(&input, "value").await.unwrap())
    }
}

/// The first figure in a text, whatever separates its thousands.
pub fn figure(text: &str) -> f64 {
    let first = text.split(" of ").next().unwrap();
    let digits: String = first
        .chars()
        .map(|c| if c == '\u{2212}' { '-' } else { c })
        .filter(|c| c.is_ascii_digit() || matches!(c, '.' | '-'))
        .collect();
    digits
        .parse()
        .unwrap_or_else(|_| panic!("no figure in {text:?}"))
}

pub fn near(measured: f64, expected: f64, slack: f64) {
    assert!(
        (measured - expected).abs() <= slack,
        "{measured} is not {expected} ± {slack}"
    );
}
