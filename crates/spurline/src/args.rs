//! The command line's grammar and its help.

use clap::{Parser, Subcommand};
use std::path::PathBuf;

/// Plans, sizes, checks and draws the electrical circuits that a person adds to a vehicle.
#[derive(Debug, Parser)]
#[command(
    name = "spurline",
    version,
    about,
    after_help = "Start with `spurline new my-ute.toml`, change it to what you want, then `spurline check my-ute.toml`.\n\n\
Exit status: 0 when no finding stops, 1 when one does, 2 when a file can't be read.\n\n\
Before you start: battery's negative lead off first; eye protection near batteries; airbag (SRS) wiring and orange \
high-voltage cable left alone; look behind a panel before drilling. Local codes come before anything printed here."
)]
pub struct Args {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Write a plan to start from, with a comment on every line that asks for a decision
    New(New),
    /// Size every wire and fuse, and report what is found
    Check(Check),
    /// Draw the circuit diagram and the loom board as SVG
    Draw(Draw),
    /// Say how long things run with the engine off, how long the vehicle may stand, what a day does to the battery
    Supply(Supply),
    /// Try every fault: what happens, in time, when any one thing goes wrong
    #[command(
        after_help = "Exit status: 0 when no finding stops, 1 when one does (a wire burns that its fuse should have saved, \
or a hazard runs unasked), 2 when a file can't be read or no such fault, name or state is known."
    )]
    Try(Try),
    /// List what to buy, and what to cut with what goes on each end of every wire
    Lists(ListsArgs),
    /// Make the documents that go to the vehicle
    Pack(Pack),
    /// Put two plans side by side: findings, wire, and what a chafed switch wire does in each
    #[command(
        after_help = "Exit status: 0 when the second has no stop that the first has not, 1 when it has one, 2 when \
either can't be read."
    )]
    Compare(Compare),
    /// Prove it with a meter, or find what is amiss: what to measure, what a sound one reads, what readings tell
    #[command(
        after_help = "Readings, what is seen and notes are kept in the record beside the plan (my-ute.record.jsonl).\n\n\
Exit status: 0 when no reading is out, 1 when one is, 2 when a file can't be read or no such test is known."
    )]
    Prove(Prove),
    /// List what can be bought: wire, fuses, relays, … with the source of every figure
    Stock(Stock),
    /// Open the pages in a browser, on this machine; with --lan on a phone too
    Open(Open),
}

/// `prove`.
#[derive(Debug, clap::Args)]
pub struct Prove {
    #[command(flatten)]
    pub texts: Texts,
    /// What was read at a test: its number or its name, and the reading: "12 = 11.8 V", "30 = open", "44 = holds"
    #[arg(long, value_name = "TEST = READING")]
    pub reading: Vec<String>,
    /// What is seen without a meter: "dead E1.1", "opens-at-once F2"
    #[arg(long, value_name = "SYMPTOM")]
    pub seen: Vec<String>,
    /// List what can be said with --seen
    #[arg(long)]
    pub symptoms: bool,
    /// List every test that can be made, not only those of the sheet
    #[arg(long)]
    pub tests: bool,
    /// Something was mended, or a search begins anew: readings so far stay in the record, and no longer count
    #[arg(long)]
    pub afresh: bool,
    /// What was really fitted: put into the plan, and everything is checked again: "wire[W1.3].size = 4 mm²"
    #[arg(long, value_name = "WHERE = WHAT")]
    pub built: Vec<String>,
    /// A note for the record
    #[arg(long, value_name = "WORDS")]
    pub note: Option<String>,
    /// Who is at the meter, for the record
    #[arg(long, value_name = "NAME", default_value = "")]
    pub who: String,
    /// Practise: a vehicle of this number has something amiss, and answers --measure instead of a meter; the number tells
    /// nothing of what it is. Its readings have a record of their own
    #[arg(long, value_name = "NUMBER")]
    pub practise: Option<u64>,
    /// Measure at the vehicle to practise on, and count it like a reading
    #[arg(long, value_name = "TEST", requires = "practise")]
    pub measure: Vec<String>,
    /// Say at last what is amiss with the vehicle to practise on
    #[arg(long, requires = "practise")]
    pub reveal: bool,
    /// Work it out, and note nothing
    #[arg(long)]
    pub unrecorded: bool,
    /// Also write it as prove.html into this folder, with where the next tips go; made if missing
    #[arg(long, value_name = "FOLDER")]
    pub into: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long, requires = "into")]
    pub replace: bool,
    /// Print one JSON object instead of the report
    #[arg(long)]
    pub json: bool,
}

/// The plan and the user's own stock.
#[derive(Clone, Debug, clap::Args)]
pub struct Texts {
    /// The plan, a TOML file
    pub plan: PathBuf,
    /// A stock file of your own to lay over the built-in one; may be given again
    #[arg(long, value_name = "FILE")]
    pub stock: Vec<PathBuf>,
}

/// Arguments of `new`.
#[derive(Debug, clap::Args)]
pub struct New {
    /// Where to write it; never overwrites
    pub plan: PathBuf,
    /// Nominal voltage of the vehicle: 12 or 24
    #[arg(long, default_value_t = 12, value_parser = clap::value_parser!(u32))]
    pub volts: u32,
}

/// Arguments of `check`.
#[derive(Debug, clap::Args)]
pub struct Check {
    #[command(flatten)]
    pub texts: Texts,
    /// Print one JSON object instead of the report
    #[arg(long)]
    pub json: bool,
    /// Print everything: also the values that were assumed, each with how to set it, and those recalled, not read
    #[arg(long, conflicts_with_all = ["json", "why"])]
    pub all: bool,
    /// Tell the whole reason of one wire, fuse, part or circuit: W1.3, F1, K2, E1.1, "rack lamps"
    #[arg(long, value_name = "NAME", conflicts_with = "json")]
    pub why: Option<String>,
    /// Also write the network of the first state as a deck for a circuit simulator, to check against
    #[arg(long, value_name = "FILE")]
    pub deck: Option<PathBuf>,
}

/// Where a command writes, and how it tells of it.
#[derive(Debug, clap::Args)]
pub struct Writing {
    /// Folder to write into; made if missing. Without it, a folder named after the command
    #[arg(long, value_name = "FOLDER")]
    pub into: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long)]
    pub replace: bool,
    /// Print one JSON object that lists the files written
    #[arg(long)]
    pub json: bool,
}

/// Arguments of `draw`.
#[derive(Debug, clap::Args)]
pub struct Draw {
    #[command(flatten)]
    pub texts: Texts,
    #[command(flatten)]
    pub writing: Writing,
    /// Also the loom board as large as the loom is, in tiles to join and lay wires on
    #[arg(long)]
    pub full_size: bool,
    /// Paper of the tiles
    #[arg(long, value_enum, default_value_t = Paper::A4)]
    pub paper: Paper,
}

/// Arguments of `supply`.
#[derive(Debug, clap::Args)]
pub struct Supply {
    #[command(flatten)]
    pub texts: Texts,
    /// How warm the battery is, with its unit: "-5 °C", "20 °F"
    #[arg(
        long,
        value_name = "TEMPERATURE",
        default_value = "25 °C",
        allow_hyphen_values = true
    )]
    pub battery_at: String,
    /// Also write it as supply.html into this folder, with the chart of the day as day.svg; made if missing
    #[arg(long, value_name = "FOLDER")]
    pub into: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long, requires = "into")]
    pub replace: bool,
    /// Print one JSON object instead of the report
    #[arg(long)]
    pub json: bool,
}

/// Arguments of `try`.
#[derive(Debug, clap::Args)]
pub struct Try {
    #[command(flatten)]
    pub texts: Texts,
    /// Look closely at one kind of fault: wire-to-body, relay-welded, load-shorted, …
    #[arg(long, value_name = "KIND")]
    pub fault: Option<String>,
    /// Look closely at faults of one wire, part or circuit: W1.3, "W1.3, far end" (the end away from the source), K2, "rack lamps"
    #[arg(long, value_name = "NAME")]
    pub at: Option<String>,
    /// Look closely in this state, not in the one in which it ends worst: "driving, everything on"
    #[arg(long, value_name = "STATE")]
    pub state: Option<String>,
    /// Also write it as try.html into this folder, with its drawings as SVG; made if missing
    #[arg(long, value_name = "FOLDER")]
    pub into: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long, requires = "into")]
    pub replace: bool,
    /// Print one JSON object instead of the report
    #[arg(long)]
    pub json: bool,
}

/// Arguments of `lists`.
#[derive(Debug, clap::Args)]
pub struct ListsArgs {
    #[command(flatten)]
    pub texts: Texts,
    /// Also write them as lists.html and, table by table, as CSV files into this folder; made if missing
    #[arg(long, value_name = "FOLDER")]
    pub into: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long, requires = "into")]
    pub replace: bool,
    /// Print one JSON object instead of the tables
    #[arg(long)]
    pub json: bool,
}

/// Arguments of `compare`.
#[derive(Debug, clap::Args)]
pub struct Compare {
    /// The first plan, a TOML file
    pub first: PathBuf,
    /// The second plan: what it gains and loses is told beside the first
    pub second: PathBuf,
    /// A stock file of your own to lay over the built-in one for both; may be given again
    #[arg(long, value_name = "FILE")]
    pub stock: Vec<PathBuf>,
    /// Print one JSON object instead of the report
    #[arg(long)]
    pub json: bool,
}

/// Arguments of `pack`.
#[derive(Debug, clap::Args)]
pub struct Pack {
    #[command(flatten)]
    pub texts: Texts,
    #[command(flatten)]
    pub writing: Writing,
    /// Only this part; may be given again
    #[arg(long, value_name = "PART", value_parser = part())]
    pub only: Vec<job::pack::Part>,
    /// The page for a phone alone, without the PDF and the drawings
    #[arg(long)]
    pub html: bool,
    /// Paper to print on
    #[arg(long, value_enum, default_value_t = Paper::A4)]
    pub paper: Paper,
    /// Date to print on the cover; without it, room to write one
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
}

/// Paper in a printer.
#[derive(Clone, Copy, Debug, clap::ValueEnum)]
pub enum Paper {
    /// 210 × 297 mm
    A4,
    /// 8½ × 11 in
    Letter,
}

impl From<Paper> for job::Paper {
    fn from(paper: Paper) -> Self {
        match paper {
            Paper::A4 => Self::A4,
            Paper::Letter => Self::Letter,
        }
    }
}

/// Reads a part of the pack by its word.
fn part() -> impl clap::builder::TypedValueParser<Value = job::pack::Part> {
    use clap::builder::TypedValueParser;
    let words = job::pack::PARTS.map(job::pack::Part::word);
    clap::builder::PossibleValuesParser::new(words).map(|word| {
        let found = job::pack::PARTS.iter().find(|p| p.word() == word);
        *found.unwrap_or(&job::pack::PARTS[0])
    })
}

/// Arguments of `stock`.
#[derive(Debug, clap::Args)]
pub struct Stock {
    /// Which table; without it, the tables there are
    pub table: Option<String>,
    /// A stock file of your own to lay over the built-in one; may be given again
    #[arg(long, value_name = "FILE")]
    pub stock: Vec<PathBuf>,
    /// Print one JSON object instead of the table
    #[arg(long)]
    pub json: bool,
}

/// Arguments of `open`.
#[derive(Debug, clap::Args)]
pub struct Open {
    /// A plan, or a folder of plans
    #[arg(default_value = ".", value_name = "PLAN or FOLDER")]
    pub path: PathBuf,
    /// A stock file of your own to lay over the built-in one; may be given again
    #[arg(long, value_name = "FILE")]
    pub stock: Vec<PathBuf>,
    /// Port on this machine
    #[arg(long, default_value_t = 8012)]
    pub port: u16,
    /// Answer a phone on the same network too, once it tells the code that is shown here
    #[arg(long)]
    pub lan: bool,
}
