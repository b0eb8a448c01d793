//! A turn from above, to scale: what truck and trailer sweep, how they stand on the way, and the ways of
//! the corners that matter.
//!
//! Ground axes are the truck's at the start of the turn; its front points to the left. The truck at the
//! start is drawn with its parts, later only as an outline.

use super::labels::{Labels, leader};
use super::plane::{At, Path, Rect, at};
use super::scene::{Anchor, Group, Role, Scene, Text, TextRole};
use super::spans::arrow;
use super::text::width;
use super::{Marks, Style, View, parts, truck};
use crate::manoeuvre::{Pose, Sweep, Vertex};
use crate::quantity;
use crate::shared::Shared;
use crate::vehicle::Vehicle;
use std::collections::BTreeMap;

/// Height of figures, paper millimetres.
const FIGURE: f64 = 3.0;
/// How many outlines stand between the start and the end.
const BETWEEN: usize = 3;
/// Width of a stage on which the figures can be read, paper millimetres.
const STAGE_MM: f64 = 240.0;

/// Composes the turn; `unit` is how many truck millimetres one millimetre of paper shows, on the stage
/// as many as make it fit.
#[must_use]
pub fn compose(vehicle: &Vehicle, marks: &Marks, style: &Style, unit: Option<f64>) -> Scene {
    let title = format!("{}, turn from above", vehicle.name);
    let sweep = match &marks.turn {
        Some(Ok(sweep)) => sweep,
        other => {
            let missing = match other {
                Some(Err(missing)) => format!("The turn is not assessed: {missing}."),
                _ => "The turn was not asked for.".to_owned(),
            };
            return only_words(title, missing, unit.unwrap_or(42.0));
        }
    };
    let reach = reach(vehicle, sweep);
    let u = unit.unwrap_or_else(|| (reach.width().max(reach.height()) / STAGE_MM).max(10.0));
    let notes = notes(vehicle, sweep, style);
    #[expect(clippy::cast_precision_loss, reason = "a few lines")]
    let tall = (notes.len() as f64 + 1.5) * 1.5 * FIGURE * u;
    let wide = notes
        .iter()
        .map(|n| width(n, FIGURE * u, false))
        .fold(0.0, f64::max);
    let room = reach.grown(4.0 * u);
    let room = Rect {
        right: room.right.max(room.left + wide + 2.0 * u),
        bottom: room.bottom + tall,
        ..room
    };
    let mut labels = Labels::new(room, 5.0 * u, None);
    let mut said = Group::layer("notes");
    for (line, words) in (0_u32..).zip(&notes) {
        let y = room.bottom - tall + (f64::from(line) + 1.5) * 1.5 * FIGURE * u;
        let text = Text::new(
            TextRole::Note,
            room.left + u,
            y,
            Anchor::Start,
            FIGURE * u,
            words.clone(),
        );
        labels.take(text.bounds().grown(0.3 * u));
        said.text(text);
    }
    // The truck at the start keeps its own picture free of figures.
    labels.take(
        hull_path(&sweep.truck.0, |x, y| (x, y))
            .bounds()
            .unwrap_or(room),
    );

    let mut groups = swept(vehicle, sweep);
    groups.push(ways(sweep));
    groups.extend(outlines(vehicle, sweep));
    groups.extend(at_start(vehicle, marks, style, u));
    groups.push(radii(sweep, style, &mut labels, u));
    groups.push(names(sweep, &mut labels, u));
    groups.push(said);
    groups.retain(|g| !g.shapes.is_empty());
    Scene {
        view: View::Turn,
        title,
        description: notes.join(" "),
        unit: u,
        bounds: room.grown(u),
        kinds: parts::kinds(vehicle, &parts::seen(vehicle, View::Plan, &reach)),
        groups: groups.into_iter().map(Shared::from).collect(),
        page: None,
    }
}

/// A scene that only says why there is none.
fn only_words(title: String, words: String, u: f64) -> Scene {
    let wide = width(&words, FIGURE * u, false);
    let room = Rect::new(at(0.0, -2.0 * FIGURE * u), at(wide + 2.0 * u, FIGURE * u));
    let mut group = Group::layer("notes");
    group.text(Text::new(
        TextRole::Note,
        u,
        0.0,
        Anchor::Start,
        FIGURE * u,
        words.clone(),
    ));
    Scene {
        view: View::Turn,
        title,
        description: words,
        unit: u,
        bounds: room.grown(u),
        kinds: std::collections::BTreeSet::new(),
        groups: vec![group.into()],
        page: None,
    }
}

/// A place on the ground in the drawing plane.
const fn on_paper((x, y): (f64, f64)) -> At {
    at(x, -y)
}

/// The outline of a body whose corners `place` puts on the ground.
fn hull_path(hull: &[Vertex], place: impl Fn(f64, f64) -> (f64, f64)) -> Path {
    let mut path = Path::new();
    let points: Vec<At> = hull.iter().map(|v| on_paper(place(v.x, v.y))).collect();
    path.polygon(&points);
    path
}

fn truck_at(sweep: &Sweep, pose: &Pose) -> Path {
    hull_path(&sweep.truck.0, |x, y| pose.of_truck(x, y))
}

fn trailer_at(vehicle: &Vehicle, sweep: &Sweep, pose: &Pose) -> Option<Path> {
    let kingpin = vehicle.trailer.as_ref()?.kingpin.x;
    let hull = sweep.trailer.as_ref()?;
    pose.trailer?;
    Some(hull_path(&hull.0, |x, y| {
        pose.of_trailer(kingpin, x, y).unwrap_or_default()
    }))
}

/// Room of everything that is drawn to scale.
fn reach(vehicle: &Vehicle, sweep: &Sweep) -> Rect {
    let c = on_paper(sweep.centre);
    let mut all = Rect::new(c, c);
    for pose in &sweep.poses {
        for path in [
            Some(truck_at(sweep, pose)),
            trailer_at(vehicle, sweep, pose),
        ] {
            if let Some(room) = path.and_then(|p| p.bounds()) {
                all = all.union(&room);
            }
        }
    }
    all
}

/// What truck and trailer sweep: every pose in one path, so that the areas unite.
fn swept(vehicle: &Vehicle, sweep: &Sweep) -> Vec<Group> {
    let mut group = Group::layer("swept");
    let (mut truck, mut trailer) = (Path::new(), Path::new());
    for pose in &sweep.poses {
        truck.join(&truck_at(sweep, pose));
        if let Some(path) = trailer_at(vehicle, sweep, pose) {
            trailer.join(&path);
        }
    }
    group.path(Role::TrailerWay, trailer);
    group.path(Role::TruckWay, truck);
    vec![group]
}

/// The ways of the front axle and of the corners.
fn ways(sweep: &Sweep) -> Group {
    let mut group = Group::layer("ways");
    let front: Vec<At> = sweep.poses.iter().map(|p| on_paper(p.front)).collect();
    group.draw(Role::CentreLine, |p| {
        p.polyline(&front);
    });
    group.draw(Role::Trace, |p| {
        for trace in &sweep.traces {
            let points: Vec<At> = trace.points.iter().map(|q| on_paper(*q)).collect();
            p.polyline(&points);
        }
    });
    group
}

/// Outlines on the way and at the end.
fn outlines(vehicle: &Vehicle, sweep: &Sweep) -> Vec<Group> {
    let mut group = Group::layer("poses");
    let last = sweep.poses.len().saturating_sub(1);
    for i in 1..=BETWEEN + 1 {
        let Some(pose) = sweep.poses.get(last * i / (BETWEEN + 1)) else {
            continue;
        };
        let role = if i > BETWEEN {
            Role::Member
        } else {
            Role::Phantom
        };
        for path in [
            trailer_at(vehicle, sweep, pose),
            Some(truck_at(sweep, pose)),
        ] {
            group.path(role, path.unwrap_or_default());
        }
    }
    vec![group]
}

/// The truck where the turn begins, with its parts.
fn at_start(vehicle: &Vehicle, marks: &Marks, style: &Style, u: f64) -> Vec<Group> {
    let mut groups = Vec::new();
    if let Some(coupled) = &vehicle.trailer {
        let mut group = Group::layer("trailer");
        let whole = View::Plan.rect(&coupled.box_ahead());
        group.draw(Role::Phantom, |p| {
            p.rect(&whole);
        });
        groups.push(group);
    }
    groups.extend(truck::truck(vehicle, View::Plan));
    let everywhere = Rect::new(at(-60_000.0, -60_000.0), at(60_000.0, 60_000.0));
    for seen in &parts::seen(vehicle, View::Plan, &everywhere) {
        let item = &vehicle.items[seen.index];
        groups.push(parts::part(
            item,
            seen,
            View::Plan,
            style,
            None,
            marks.parts.get(&item.tag).copied(),
            u,
        ));
    }
    groups
}

/// Radii from the centre of the arc, with their figures.
fn radii(sweep: &Sweep, style: &Style, labels: &mut Labels<'_>, u: f64) -> Group {
    let mut group = Group::layer("dimensions");
    let c = on_paper(sweep.centre);
    group.draw(Role::Dimension, |p| {
        p.line(at(c.x - 2.0 * u, c.y), at(c.x + 2.0 * u, c.y));
        p.line(at(c.x, c.y - 2.0 * u), at(c.x, c.y + 2.0 * u));
    });
    let length = |mm: f64| quantity::length(mm, style.units);
    let inner = (sweep.inner_mm > 1.0).then(|| {
        let (x, y) = (
            sweep.inner_at.0 - sweep.centre.0,
            sweep.inner_at.1 - sweep.centre.1,
        );
        let far = crate::numeric::hypot(x, y).max(1.0);
        let k = sweep.inner_mm / far;
        (sweep.centre.0 + x * k, sweep.centre.1 + y * k)
    });
    let outer = format!("R {}", length(sweep.outer_mm));
    let lines = [
        (Some(sweep.outer_at), outer, sweep.outer_mm),
        (
            inner,
            format!("r {}", length(sweep.inner_mm)),
            sweep.inner_mm,
        ),
    ];
    for (end, words, long) in lines {
        let Some(end) = end.map(on_paper) else {
            continue;
        };
        group.draw(Role::Dimension, |p| {
            p.line(c, end);
        });
        let tail = 2.2 * u / long.max(1.0);
        group.draw(Role::Arrow, |p| {
            let back = at(end.x + (c.x - end.x) * tail, end.y + (c.y - end.y) * tail);
            arrow(p, end, back, u);
        });
        let middle = at(f64::midpoint(c.x, end.x), f64::midpoint(c.y, end.y));
        label(&mut group, labels, middle, words, u);
    }
    group
}

/// Names of the corners whose ways are drawn, each at the middle of its way; of a part once.
fn names(sweep: &Sweep, labels: &mut Labels<'_>, u: f64) -> Group {
    let mut group = Group::layer("names");
    let mut once: BTreeMap<&str, At> = BTreeMap::new();
    for trace in &sweep.traces {
        if let Some(middle) = trace.points.get(trace.points.len() / 2) {
            once.entry(&trace.name).or_insert(on_paper(*middle));
        }
    }
    for (name, place) in once {
        label(&mut group, labels, place, name.to_owned(), u);
    }
    group
}

/// A word near a place, with a leader when it had to stand off.
fn label(group: &mut Group, labels: &mut Labels<'_>, place: At, words: String, u: f64) {
    let size = FIGURE * u;
    let target = Rect::about(place, u, u);
    let Some(spot) = labels.place(&target, width(&words, size, false) + u, 1.3 * size, false)
    else {
        return;
    };
    let (from, to) = leader(&spot.rect, &target, 0.5 * u);
    group.draw(Role::Leader, |p| {
        p.line(from, to);
    });
    group.rounded(Role::White, spot.rect, 0.4 * u);
    let (x, y) = (spot.rect.centre().x, spot.rect.bottom - 0.4 * size);
    group.text(Text::new(
        TextRole::Dimension,
        x,
        y,
        Anchor::Middle,
        size,
        words,
    ));
}

/// What the turn comes to, line by line.
fn notes(vehicle: &Vehicle, sweep: &Sweep, style: &Style) -> Vec<String> {
    let length = |mm: f64| quantity::length(mm, style.units);
    let side = if sweep.to_left { "left" } else { "right" };
    let lock = if sweep.steady.locked {
        ", full lock"
    } else {
        ""
    };
    let mut lines = vec![
        format!(
            "Turn of {:.0}° to the {side}{lock}; middle of the front axle on {}.",
            sweep.angle_deg,
            length(sweep.front_radius_mm)
        ),
        format!(
            "Outermost R {}, innermost r {}, swept width {}.",
            length(sweep.outer_mm),
            length(sweep.inner_mm),
            length(sweep.width_mm())
        ),
    ];
    if vehicle.trailer.is_some() {
        lines.push(format!(
            "Trailer axles run inside by up to {}; articulation up to {:.1}°; its tail swings out {}.",
            length(sweep.off_tracking_mm),
            sweep.articulation_deg,
            length(sweep.trailer_tail_mm)
        ));
    } else {
        lines.push(format!(
            "The rear axles run inside by up to {}; the tail swings out {}.",
            length(sweep.off_tracking_mm),
            length(sweep.truck_tail_mm)
        ));
    }
    if sweep.jackknifes {
        lines.push(
            "The turn ends where the articulation that the tractor permits is used up.".to_owned(),
        );
    }
    lines
}
