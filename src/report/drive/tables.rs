//! Tables of a drive beside those of its charts: what it can do, packs, source, tanks, plug, stops, track.
//! The command line prints the same ones.

use crate::assessment::{Journey, Plugged};
use crate::energy::{Charge, Strategy};
use crate::plan::Duty;
use crate::quantity::{Measure, Units, grouped};
use crate::report::page::Table;
use crate::report::pages::NONE;

/// Headings of a table of single figures.
pub const HEADS: [(&str, bool); 2] = [("What", false), ("How much", true)];

/// A table of single figures that grows line by line.
struct Lines {
    table: Table,
    units: Units,
}

impl Lines {
    fn new(title: &str, units: Units) -> Self {
        let table = Table::new(title, &HEADS);
        Self { table, units }
    }

    fn words(&mut self, name: &str, words: String) {
        self.table.row(None, vec![name.to_owned(), words]);
    }

    fn add(&mut self, name: &str, measure: Measure, value: f64) {
        self.words(name, measure.text(value, self.units));
    }
}

/// Seconds below a minute, which a table of minutes would round away.
fn seconds(s: f64) -> String {
    format!("{} s", grouped(s, 1))
}

/// Starting, climbing, speeds.
pub fn abilities(journey: &Journey, units: Units) -> Table {
    let grades = &journey.grades;
    let columns = [("What", false), ("Peak", true), ("Continuous", true)];
    let mut table = Table::new("What it can do", &columns);
    let show = |measure: Measure, value: Option<f64>| {
        value.map_or_else(|| "not at all".to_owned(), |v| measure.text(v, units))
    };
    let none = || NONE.to_owned();
    let mut row = |name: String, peak: String, lasting: String| {
        table.row(None, vec![name, peak, lasting]);
    };
    let starts = show(Measure::Share, grades.launch);
    row("Starts on a grade of".to_owned(), starts, none());
    for (grade, (peak, lasting)) in [(0.03, grades.on_3), (0.06, grades.on_6)] {
        let grade = grouped(100.0 * grade, 0);
        let [peak, lasting] = [peak, lasting].map(|v| show(Measure::RoadSpeed, v));
        row(format!("Holds on a {grade} % grade"), peak, lasting);
    }
    let top = show(Measure::RoadSpeed, grades.top);
    row("Holds on the level".to_owned(), none(), top);
    for (v, peak, lasting) in grades.at_speed {
        let at = Measure::RoadSpeed.text(v, units);
        let [peak, lasting] = [peak, lasting].map(|g| show(Measure::Share, g));
        row(format!("Climbs at {at}"), peak, lasting);
    }
    let sprints = [
        (
            "From a standstill to 30 mph (48 km/h)",
            grades.sprint.to_30_mph_s,
        ),
        (
            "From a standstill to 60 mph (97 km/h)",
            grades.sprint.to_60_mph_s,
        ),
    ];
    for (name, time) in sprints {
        let time = time.map_or_else(|| "not reached".to_owned(), seconds);
        row(name.to_owned(), time, none());
    }
    table.note = Some(
        "Packs half full, no wind. Peak: for 30 seconds; continuous: without end. A shift takes 0.6 s without \
         pull, and there are 4 s between two (common practice)."
            .to_owned(),
    );
    table
}

/// Packs: what they are, how warm they got, how long they last.
pub fn packs(journey: &Journey, units: Units) -> Table {
    let (run, bank, wear) = (&journey.run, &journey.truck.bank, &journey.wear);
    let mut lines = Lines::new("Packs", units);
    let cells = bank.cell.chemistry.words();
    lines.words("Packs", format!("{} of {cells} cells", bank.packs));
    lines.add("Cells in series", Measure::Count, bank.series);
    let (low, high) = (bank.series * bank.cell.least_v, bank.top_v());
    let volts = format!("{} to {} V", grouped(low, 0), grouped(high, 0));
    lines.words("Voltage, empty under load to full", volts);
    lines.add("Energy by their plates", Measure::Energy, bank.energy_j);
    lines.add("Usable when warm", Measure::Energy, bank.usable_j());
    let now = bank.usable_at_j(run.pack_end_c);
    lines.add("Usable as cold as they end", Measure::Energy, now);
    let [least, most] =
        [run.pack_least_c, run.pack_most_c].map(|c| Measure::Temperature.text(c, units));
    lines.words("Temperature on the way", format!("{least} to {most}"));
    lines.add("Heat made in them", Measure::Energy, run.ledger.pack_heat_j);
    lines.add("Energy into their heater", Measure::Energy, run.heater_j);
    let worn = Measure::Share.text(Duty::END_HEALTH, units);
    let last = format!("Last until {worn} of the energy is left");
    lines.add(&last, Measure::Years, wear.years);
    let duty = &journey.answers.vehicle.duty;
    let days = duty.days_a_year.unwrap_or(Duty::DAYS_A_YEAR);
    let a_year = wear.cycles_a_day * days + wear.calendar_a_year;
    let by_cycles = wear.cycles_a_day * days / a_year.max(f64::MIN_POSITIVE);
    lines.add("Of the wear by cycles, not time", Measure::Share, by_cycles);
    lines.table.note = Some(format!("Voltage by charge: {}.", bank.cell.open_v_source));
    lines.table
}

/// The generator or fuel cell: what it is made for, and what it did.
pub fn source(journey: &Journey, units: Units) -> Option<Table> {
    let source = journey.truck.source.as_ref()?;
    let run = &journey.run;
    let mut lines = Lines::new("Generator or fuel cell", units);
    lines.add("Continuous power, new", Measure::Power, source.continuous_w);
    let high = source.lasting_w(run.highest_m);
    lines.add("The same at the highest place", Measure::Power, high);
    let old = source.clone().worn_out().lasting_w(run.highest_m);
    lines.add("There at the end of its life", Measure::Power, old);
    for (part, name) in [
        (0.25, "Efficiency at a quarter of its power"),
        (0.5, "Efficiency at half"),
        (0.75, "Efficiency at three quarters"),
        (1.0, "Efficiency at full power"),
    ] {
        let efficiency = source.efficiency(part * source.continuous_w);
        lines.add(name, Measure::Share, efficiency);
    }
    lines.words("From start to full power", seconds(source.warm_up_s));
    lines.words("Runs at least", seconds(source.least_run_s));
    lines.add(
        "Least power while running",
        Measure::Share,
        source.least_share,
    );
    lines.add("Rises in a second by", Measure::Share, source.ramp_per_s);
    lines.add("Ran", Measure::Time, run.source_s);
    lines.words("Starts", run.source_starts.to_string());
    lines.add("Made", Measure::Energy, run.ledger.source_j);
    let how = match journey.conditions.strategy {
        Strategy::Follow { hold } => format!(
            "It follows the need averaged over 2 minutes and holds the packs at {}.",
            Measure::Share.text(hold, units)
        ),
        Strategy::Switch { start, stop } => format!(
            "It runs at full power from {} of the packs' charge up to {}.",
            Measure::Share.text(start, units),
            Measure::Share.text(stop, units)
        ),
        Strategy::Off => "It does not run.".to_owned(),
    };
    let assumed = if source.assumed {
        " What the part does not state is common practice."
    } else {
        ""
    };
    lines.table.note = Some(how + assumed);
    Some(lines.table)
}

/// Tanks that the source burns from.
pub fn tanks(journey: &Journey, units: Units) -> Option<Table> {
    let tanks = &journey.truck.tanks;
    if tanks.is_empty() {
        return None;
    }
    let mass = |name: &str| format!("{name}, {}", Measure::Mass.unit(units));
    let heads = [
        "Stated full",
        "By volume and pressure",
        "Aboard",
        "Stays in it",
        "Usable",
    ]
    .map(mass);
    let mut columns = vec![("Tank", false)];
    columns.extend(heads.iter().map(|head| (head.as_str(), true)));
    columns.push(("Filled in, min at least", true));
    let mut table = Table::new("Tanks", &columns);
    for (tag, tank) in tanks {
        let kg = |kg: f64| grouped(Measure::Mass.shown(kg, units), 1);
        table.row(
            None,
            vec![
                tag.clone(),
                kg(tank.stated_kg),
                tank.holds_kg.map_or_else(|| NONE.to_owned(), kg),
                kg(tank.aboard_kg),
                kg(tank.left_kg),
                kg(tank.usable_kg()),
                grouped(Measure::Time.shown(tank.refill_s, units), 0),
            ],
        );
    }
    table.note = Some(format!(
        "Burnt on the way: {} of {} usable.",
        Measure::Mass.text(journey.fuel_kg(), units),
        Measure::Mass.text(journey.truck.fuel_kg, units)
    ));
    Some(table)
}

/// A night at the plug.
pub fn plug(plugged: &Plugged, units: Units) -> Vec<Table> {
    let title = format!("By {}", plugged.feed.by);
    let mut lines = Lines::new(&title, units);
    let time = |charge: &Charge| charge.time_s;
    lines.add("10 to 80 %", Measure::Time, time(&plugged.quick));
    lines.add("0 to 100 %", Measure::Time, time(&plugged.whole));
    lines.add(
        "From the day's end to full",
        Measure::Time,
        time(&plugged.night),
    );
    lines.add("There are", Measure::Time, plugged.hours * 3_600.0);
    lines.add(
        "Energy into the packs",
        Measure::Energy,
        plugged.night.energy_j,
    );
    lines.add("Energy from the wall", Measure::Energy, plugged.wall_j);
    let most = plugged.night.most_w.max(plugged.quick.most_w);
    lines.add("Most power at the packs", Measure::Power, most);
    let mut tables = vec![lines.table];
    if !plugged.outlets.is_empty() {
        let columns = [
            ("Outlet", false),
            ("Power at the packs, kW", true),
            ("10 to 80 %, min", true),
        ];
        let mut table = Table::new("The same charger at other outlets", &columns);
        for (name, watt, s) in &plugged.outlets {
            let power = Measure::Power.number(*watt, units);
            let time = Measure::Time.number(*s, units);
            table.row(None, vec![(*name).to_owned(), power, time]);
        }
        tables.push(table);
    }
    tables
}

/// Stops with a charger.
pub fn stops(journey: &Journey, units: Units) -> Option<Table> {
    let charged = &journey.run.charged;
    if charged.is_empty() {
        return None;
    }
    let at = format!("At, {}", Measure::Way.unit(units));
    let columns = [
        (at.as_str(), true),
        ("By", false),
        ("Stands, min", true),
        ("Into the packs, kWh", true),
        ("From the wall, kWh", true),
        ("Charge before, %", true),
        ("Charge after, %", true),
    ];
    let mut table = Table::new("Charging on the way", &columns);
    for stop in charged {
        let by = match &stop.by {
            Ok(by) => by.clone(),
            Err(why) => format!("nothing: {why}"),
        };
        let show = |measure: Measure, value: f64| measure.number(value, units);
        table.row(
            None,
            vec![
                show(Measure::Way, stop.at_m),
                by,
                show(Measure::Time, stop.dwell_s),
                show(Measure::Energy, stop.energy_j),
                show(Measure::Energy, stop.wall_j),
                show(Measure::Share, stop.soc.0),
                show(Measure::Share, stop.soc.1),
            ],
        );
    }
    Some(table)
}

/// What was made of a recorded track.
pub fn track(journey: &Journey, units: Units) -> Option<Table> {
    let survey = journey.route.survey.as_ref()?;
    let mut lines = Lines::new("Recorded track", units);
    lines.words("Points", grouped(survey.points as f64, 0));
    lines.words("Wild points left out", grouped(survey.wild as f64, 0));
    match survey.speed_mps {
        Some(v) => lines.add("No times in it; speed taken", Measure::RoadSpeed, v),
        None => lines.words("Stops found by its times", survey.stops.to_string()),
    }
    lines.add("Climb as recorded", Measure::Height, survey.raw_climb_m);
    lines.add("Climb smoothed", Measure::Height, survey.climb_m);
    lines.table.note = Some(format!("Heights: {}.", survey.method));
    Some(lines.table)
}

/// Air outside up to which continuous power is cooled without end.
pub fn cooling(journey: &Journey, units: Units) -> Option<Table> {
    let limits = journey.cooled_to()?;
    let speed = format!("Speed, {}", Measure::RoadSpeed.unit(units));
    let unit = Measure::Temperature.unit(units);
    let (source, drive) = (
        format!("Generator or fuel cell, {unit}"),
        format!("Motors and inverters, {unit}"),
    );
    let mut columns = vec![(speed.as_str(), true)];
    let sourced = journey.truck.source.is_some();
    if sourced {
        columns.push((source.as_str(), true));
    }
    columns.push((drive.as_str(), true));
    let mut table = Table::new(
        "Air outside up to which continuous power is cooled",
        &columns,
    );
    let show = |c: Option<f64>| {
        c.map_or_else(
            || "none".to_owned(),
            |c| Measure::Temperature.number(c, units),
        )
    };
    for limit in limits {
        let mut row = vec![Measure::RoadSpeed.number(limit.v_mps, units)];
        if sourced {
            row.push(show(limit.source_c));
        }
        row.push(show(limit.drive_c));
        table.row(None, row);
    }
    table.note = Some(
        "Continuous power without end, fans at full speed, coolant at its limit: in hotter air heat takes \
         power back. A short climb is carried by the mass that has to get hot first; the chart shows it."
            .to_owned(),
    );
    Some(table)
}
