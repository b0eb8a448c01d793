//! Columns of figures, shown twice: as a table to read and as lines to see.

use crate::drawing::{Axis, Line, Panel, Pen};
use crate::quantity::{Measure, Units, grouped};
use crate::report::page::Table;

/// Rows of a table that are taken at equal distances; those that stand out come on top.
const ROWS: usize = 48;

/// A column.
#[derive(Clone, Debug)]
pub struct Column {
    /// Heading, without unit.
    pub name: &'static str,
    /// What it counts.
    pub measure: Measure,
    /// Values, in the units inside.
    pub values: Vec<f64>,
}

/// Columns of equal length; the first is what the others are drawn over.
#[derive(Clone, Debug)]
pub struct Figures {
    columns: Vec<Column>,
    units: Units,
}

impl Figures {
    pub const fn new(units: Units) -> Self {
        Self {
            columns: Vec::new(),
            units,
        }
    }

    /// Adds a column and returns its number.
    pub fn add(&mut self, name: &'static str, measure: Measure, values: Vec<f64>) -> usize {
        self.columns.push(Column {
            name,
            measure,
            values,
        });
        self.columns.len() - 1
    }

    /// True when there is no row.
    pub fn is_empty(&self) -> bool {
        self.columns.first().is_none_or(|c| c.values.is_empty())
    }

    /// The axis of a column.
    pub fn axis(&self, column: usize) -> Axis {
        let of = self.columns.get(column);
        of.map_or_else(
            || Axis::new("", ""),
            |c| Axis::new(c.name, c.measure.unit(self.units)),
        )
    }

    /// A column as a line over the first.
    pub fn line(&self, column: usize, name: &str, pen: Pen) -> Line {
        let shown = |i: usize| {
            let column = self.columns.get(i);
            column.into_iter().flat_map(|c| {
                let shown = |v: &f64| c.measure.shown(*v, self.units);
                c.values.iter().map(shown)
            })
        };
        Line {
            name: name.to_owned(),
            pen,
            filled: false,
            points: shown(0).zip(shown(column)).collect(),
        }
    }

    /// A panel of lines that reaches nought.
    pub fn panel(&self, name: &str, column: usize, lines: Vec<Line>) -> Panel {
        let axis = Axis {
            name: name.to_owned(),
            ..self.axis(column)
        };
        Panel {
            axis,
            reaches: vec![0.0],
            lines,
            share: 1.0,
        }
    }

    /// The table: some rows at equal distances, and every column's least and greatest.
    pub fn table(&self, title: &str, what: &str) -> Table {
        let headings: Vec<String> = self
            .columns
            .iter()
            .map(|c| match c.measure.unit(self.units) {
                "" => c.name.to_owned(),
                unit => format!("{}, {unit}", c.name),
            })
            .collect();
        let columns: Vec<(&str, bool)> = headings.iter().map(|h| (h.as_str(), true)).collect();
        let mut table = Table::new(title, &columns);
        let all = self.columns.first().map_or(0, |c| c.values.len());
        let rows = self.rows(all);
        if rows.len() < all {
            table.note = Some(format!(
                "{} of {all} {what}; the chart shows all of them. Every column's least and greatest are here.",
                rows.len()
            ));
        }
        for i in rows {
            let cell = |c: &Column| {
                c.values
                    .get(i)
                    .map_or_else(String::new, |v| self.cell(c, *v))
            };
            table.row(None, self.columns.iter().map(cell).collect());
        }
        table
    }

    fn rows(&self, all: usize) -> Vec<usize> {
        let last = all.saturating_sub(1);
        let mut rows: Vec<usize> = if all <= ROWS {
            (0..all).collect()
        } else {
            (0..ROWS).map(|k| k * last / (ROWS - 1)).collect()
        };
        for column in self.columns.iter().filter(|_| all > ROWS) {
            let found = |better: fn(f64, f64) -> bool| {
                let start: Option<(usize, f64)> = None;
                let pick = |best: Option<(usize, f64)>, (i, v): (usize, &f64)| match best {
                    Some((_, old)) if !better(*v, old) => best,
                    _ => Some((i, *v)),
                };
                let finite = column
                    .values
                    .iter()
                    .enumerate()
                    .filter(|(_, v)| v.is_finite());
                finite.fold(start, pick).map(|(i, _)| i)
            };
            rows.extend(found(|a, b| a < b));
            rows.extend(found(|a, b| a > b));
        }
        rows.sort_unstable();
        rows.dedup();
        rows
    }

    fn cell(&self, column: &Column, value: f64) -> String {
        if !value.is_finite() {
            return crate::report::pages::NONE.to_owned();
        }
        match column.measure {
            // A whole minute is too coarse to tell two rows apart.
            Measure::Time => grouped(column.measure.shown(value, self.units), 1),
            measure => measure.number(value, self.units),
        }
    }
}
