//! Cautions, shown where the matter arises and once each.

use crate::vehicle::Vehicle;
use serde::Serialize;

/// A caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Caution {
    /// Signal word.
    pub level: &'static str,
    /// What to do and what not.
    pub text: &'static str,
}

const VOLTAGE: Caution = Caution {
    level: "DANGER",
    text: "High voltage can kill. Only a qualified person, isolated, locked out, proven dead with a tested meter, a second person present. Wait for the discharge time on the label.",
};
const GAS: Caution = Caution {
    level: "DANGER",
    text: "Flammable gas under high pressure. Certified cylinders, mounts and vents, fitted by licensed people. No flame, spark or weld. Vent and purge by the tank maker's procedure. Stay out of the vent path.",
};
const FIRE: Caution = Caution {
    level: "DANGER",
    text: "If a pack smokes, hisses or pops: leave, isolate, call the fire service. Do not open it. It can burn again for days. Parts in crash zones need their own assessment.",
};
const LIFTING: Caution = Caution {
    level: "WARNING",
    text: "Never lift, jack or stand under the truck by a pack, tank or its hanger.",
};
const BRAKES: Caution = Caution {
    level: "WARNING",
    text: "This plan changes axle loads. Brake and steering checks must be redone before road use.",
};
const FRAME: Caution = Caution {
    level: "WARNING",
    text: "Do not drill flanges or weld heat-treated rails. Follow the chassis maker's written guidance.",
};
const ESTIMATE: Caution = Caution {
    level: "CAUTION",
    text: "A planning estimate, not a certification. Weigh the finished truck. Axle ratings, the certification label and the road law decide, not this screen.",
};
const LAW: Caution = Caution {
    level: "NOTICE",
    text: "Limits differ by place and date, and a scale may take the length of a group of axles to the nearest foot where the bridge formula here takes it exactly. What the chosen law leaves to states or countries is not judged. Figures marked common practice are not law. Check the text.",
};

/// The cautions as the last lines of a report in words.
pub(super) fn caution_lines(vehicle: &Vehicle) -> String {
    let line = |c: Caution| format!("  {}: {}\n", c.level, c.text);
    let lines: String = cautions(vehicle).into_iter().map(line).collect();
    format!("\nCautions\n{lines}")
}

/// The cautions that this vehicle gives rise to.
#[must_use]
pub fn cautions(vehicle: &Vehicle) -> Vec<Caution> {
    let mut list = Vec::new();
    let any =
        |test: &dyn Fn(&crate::part::Part) -> bool| vehicle.items.iter().any(|i| test(&i.part));
    let electric = any(&|p| p.battery.is_some() || p.motor.is_some() || p.power_source.is_some());
    if electric {
        list.push(VOLTAGE);
    }
    if any(&|p| p.contents.is_some()) {
        list.push(GAS);
    }
    if any(&|p| p.battery.is_some()) {
        list.push(FIRE);
        list.push(LIFTING);
    }
    if !vehicle.items.is_empty() || !vehicle.stripped.is_empty() {
        list.push(BRAKES);
        list.push(FRAME);
    }
    list.push(ESTIMATE);
    list.push(LAW);
    list
}
