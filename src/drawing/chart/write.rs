//! Writes a chart as SVG, with the house's writer of shapes.

use super::{Chart, ChartScene};
use crate::drawing::encode::{escaped, number};
use crate::drawing::svg::write_group;

/// The rules, with a mark for the chart's class.
const RULES: &str = include_str!("chart.css");

/// Hatches: word, ground, strokes on a tile of six pixels.
const HATCHES: [(&str, &str, &str); 2] = [
    ("rising", "#f3e6d8", "M0 6L6 0M-1 1L1-1M5 7L7 5"),
    ("dots", "#fff", "M1.5 1.5h1.4M4.5 4.5h1.4"),
];

pub(super) fn write(chart: &Chart, scene: &ChartScene) -> String {
    let scope = format!("aw-chart-{}", chart.id);
    let mut out = String::from("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ");
    let (w, h) = (scene.bounds.width(), scene.bounds.height());
    for (before, value) in [("", w), (" ", h), ("\" width=\"", w), ("\" height=\"", h)] {
        out.push_str(before);
        number(&mut out, value);
    }
    out.push_str("\" class=\"aw-chart ");
    out.push_str(&scope);
    out.push_str("\" role=\"img\" aria-label=\"");
    escaped(&mut out, &chart.title);
    out.push_str("\">\n<title>");
    escaped(&mut out, &chart.title);
    out.push_str("</title>\n<desc>");
    escaped(&mut out, &chart.description);
    out.push_str("</desc>\n<style>");
    let rules = RULES.split_once("*/").map_or(RULES, |(_, rules)| rules);
    out.push_str(
        &rules
            .replace("#@", &format!("#{scope}"))
            .replace('@', &format!(".{scope}")),
    );
    out.push_str("</style><defs>");
    for (word, ground, strokes) in HATCHES {
        out.push_str(&format!(
            "<pattern id=\"{scope}-{word}\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">\
             <path d=\"M0 0H6V6H0Z\" style=\"fill:{ground};stroke:none\"/>\
             <path d=\"{strokes}\" style=\"stroke:#14222c;stroke-width:1.1\"/></pattern>"
        ));
    }
    out.push_str("</defs>\n<rect class=\"paper\" fill=\"#fff\" width=\"100%\" height=\"100%\"/>\n");
    for group in &scene.groups {
        write_group(&mut out, group, false);
    }
    out.push_str("</svg>\n");
    out
}
