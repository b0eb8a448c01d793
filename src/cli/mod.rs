//! The command line: files in, text, JSON or SVG out.
//!
//! Exit code 0 when nothing fails, 1 when a finding fails, 2 when input cannot be used.

mod drive;
mod evaluate;
mod schema;
mod show;

use crate::drawing::View;
use crate::library::Library;
use crate::plan::Plan;
use crate::quantity::Units;
use clap::{Parser, Subcommand, ValueEnum};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Plan an electric driveline on a heavy-truck chassis that already exists.
#[derive(Debug, Parser)]
#[command(name = "axlewright", version, about)]
struct Arguments {
    /// More chassis, trailers, parts or laws, as TOML files.
    #[arg(long = "with", global = true, value_name = "FILE")]
    with: Vec<PathBuf>,
    #[command(subcommand)]
    command: Command,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Format {
    Text,
    Json,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum UnitsChoice {
    Us,
    Metric,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum ViewChoice {
    Side,
    Plan,
    Rear,
    Turn,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum SchemaOf {
    Chassis,
    Part,
    Plan,
    Trailer,
    Law,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Work out loads, clearances and findings of a plan; `-` reads one plan a line.
    Evaluate {
        /// Plan file, or `-`.
        plan: PathBuf,
        /// How to answer.
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
        /// Units of the words; JSON figures are always kg and mm.
        #[arg(long, value_enum, default_value = "metric")]
        units: UnitsChoice,
    },
    /// Draw a plan as SVG.
    Draw {
        /// Plan file.
        plan: PathBuf,
        /// Which view.
        #[arg(long, value_enum, default_value = "side")]
        view: ViewChoice,
        /// Where to write.
        #[arg(short = 'o', value_name = "FILE")]
        output: PathBuf,
        /// Shear and bending of the rails under the side view.
        #[arg(long)]
        frame: bool,
        /// Date for the title block.
        #[arg(long, default_value = "")]
        date: String,
        /// Units of the figures.
        #[arg(long, value_enum, default_value = "metric")]
        units: UnitsChoice,
    },
    /// Drive a plan on a route: energy, time, power, heat.
    Drive {
        /// Plan file.
        plan: PathBuf,
        /// Route id, or a CSV or GPX file; the plan's own when not given.
        #[arg(long, value_name = "ID|FILE")]
        route: Option<String>,
        /// Speed where the file names none, such as 55mph; 80 km/h when not given.
        #[arg(long)]
        speed: Option<String>,
        /// How to answer.
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
        /// Units of the words and the charts.
        #[arg(long, value_enum, default_value = "metric")]
        units: UnitsChoice,
        /// Folder for the charts, as SVG; made when it is not there.
        #[arg(long, value_name = "DIR")]
        charts: Option<PathBuf>,
    },
    /// How many packs a range or the day takes, for every pack of the library.
    Size {
        /// Plan file.
        plan: PathBuf,
        /// Way on the packs alone, such as 200mi or 320km; the day as the plan's duty says when not given.
        #[arg(long)]
        range: Option<String>,
        /// Route id, or a CSV or GPX file; the plan's own when not given.
        #[arg(long, value_name = "ID|FILE")]
        route: Option<String>,
        /// Speed where the file names none, such as 55mph; 80 km/h when not given.
        #[arg(long)]
        speed: Option<String>,
        /// Units of the words.
        #[arg(long, value_enum, default_value = "metric")]
        units: UnitsChoice,
    },
    /// How long charging takes.
    Charge {
        /// Plan file.
        plan: PathBuf,
        /// Inlet or charger on the truck: mark or part id.
        #[arg(long)]
        inlet: Option<String>,
        /// How to answer.
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
        /// Units of the words and the chart.
        #[arg(long, value_enum, default_value = "metric")]
        units: UnitsChoice,
        /// Folder for the chart, as SVG; made when it is not there.
        #[arg(long, value_name = "DIR")]
        charts: Option<PathBuf>,
    },
    /// List routes.
    Routes,
    /// List chassis, trailers and road laws.
    Templates,
    /// List parts.
    Parts,
    /// Print the JSON Schema of a file.
    Schema {
        /// Which file.
        #[arg(value_enum)]
        of: SchemaOf,
    },
    /// Print an empty plan on a chassis.
    New {
        /// Chassis id.
        #[arg(long)]
        chassis: String,
    },
    /// Explain a check by its id, or list all checks.
    Explain {
        /// Check id.
        id: Option<String>,
    },
}

/// Why a command could not do its work.
#[derive(Debug, thiserror::Error)]
enum Failure {
    /// A file could not be read or written.
    #[error("{0}: {1}")]
    File(String, std::io::Error),
    /// Input cannot be used.
    #[error("{0}")]
    Input(String),
}

impl From<UnitsChoice> for Units {
    fn from(choice: UnitsChoice) -> Self {
        match choice {
            UnitsChoice::Us => Self::Us,
            UnitsChoice::Metric => Self::Metric,
        }
    }
}

impl From<ViewChoice> for View {
    fn from(choice: ViewChoice) -> Self {
        match choice {
            ViewChoice::Side => Self::Side,
            ViewChoice::Plan => Self::Plan,
            ViewChoice::Rear => Self::Rear,
            ViewChoice::Turn => Self::Turn,
        }
    }
}

/// Runs the command line.
#[must_use]
pub fn run() -> ExitCode {
    let arguments = Arguments::parse();
    match dispatch(arguments) {
        Ok(code) => code,
        Err(failure) => {
            eprintln!("{failure}");
            ExitCode::from(2)
        }
    }
}

fn dispatch(arguments: Arguments) -> Result<ExitCode, Failure> {
    let mut library = Library::shipped();
    for path in &arguments.with {
        let text = read(path)?;
        let name = path.display().to_string();
        library
            .add_toml(&name, &text)
            .map_err(|p| Failure::Input(p.to_string()))?;
    }
    match arguments.command {
        Command::Evaluate {
            plan,
            format,
            units,
        } => evaluate::run(&library, &plan, format, units.into()),
        Command::Draw {
            plan,
            view,
            output,
            frame,
            date,
            units,
        } => show::draw(
            &library,
            &plan,
            (view.into(), frame),
            &output,
            date,
            units.into(),
        ),
        Command::Drive {
            plan,
            route,
            speed,
            format,
            units,
            charts,
        } => {
            let way = drive::Way {
                route: route.as_deref(),
                speed: speed.as_deref(),
            };
            drive::run(
                &library,
                &plan,
                way,
                format,
                units.into(),
                charts.as_deref(),
            )
        }
        Command::Size {
            plan,
            range,
            route,
            speed,
            units,
        } => {
            let way = drive::Way {
                route: route.as_deref(),
                speed: speed.as_deref(),
            };
            drive::size(&library, &plan, way, range.as_deref(), units.into())
        }
        Command::Charge {
            plan,
            inlet,
            format,
            units,
            charts,
        } => {
            let (inlet, charts) = (inlet.as_deref(), charts.as_deref());
            drive::charge(&library, &plan, inlet, format, units.into(), charts)
        }
        Command::Routes => Ok(show::routes()),
        Command::Templates => Ok(show::templates(&library)),
        Command::Parts => Ok(show::parts(&library)),
        Command::Schema { of } => Ok(schema::run(of)),
        Command::New { chassis } => show::new(&library, &chassis),
        Command::Explain { id } => show::explain(id.as_deref()),
    }
}

fn read(path: &Path) -> Result<String, Failure> {
    let name = path.display().to_string();
    let bytes = std::fs::read(path).map_err(|e| Failure::File(name.clone(), e))?;
    text_of(&name, bytes)
}

fn text_of(name: &str, bytes: Vec<u8>) -> Result<String, Failure> {
    String::from_utf8(bytes).map_err(|_| Failure::Input(format!("{name}: is not UTF-8 text")))
}

fn plan_of(name: &str, text: &str) -> Result<Plan, Failure> {
    Plan::from_json(name, text).map_err(|problems| Failure::Input(problems.to_string()))
}

fn read_plan(path: &Path) -> Result<Plan, Failure> {
    plan_of(&path.display().to_string(), &read(path)?)
}
