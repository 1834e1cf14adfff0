//! The program `headlap`: reads a job, plans it, prints the plan. One file a command.

mod commands;
mod ink;
mod input;
mod note;
mod output;
mod page;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

use commands::{
    book, check, compare, explain, export, import, measure, new, order, plan, price, rates, relay, rules, schema, serve,
    sheets, stage,
};

/// Plans steep-slope roofs laid in small units: slate, shingle, shake, plain tile.
#[derive(Parser)]
#[command(name = "headlap", version, max_term_width = 80)]
#[command(after_help = "Ends with 0 if everything was planned, 1 if not, 2 if the input cannot be read.")]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    Plan(plan::Arguments),
    Book(book::Arguments),
    Check(check::Arguments),
    Order(order::Arguments),
    Price(price::Arguments),
    Stage(stage::Arguments),
    Relay(relay::Arguments),
    Compare(compare::Arguments),
    Rules(rules::Arguments),
    Explain(explain::Arguments),
    Measure(measure::Arguments),
    Sheets(sheets::Arguments),
    Rates(rates::Arguments),
    Schema(schema::Arguments),
    New(new::Arguments),
    Import(import::Arguments),
    Export(export::Arguments),
    Serve(serve::Arguments),
}

/// What the program ends with; the numbers are a contract.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ending {
    /// Everything was done.
    Done = 0,
    /// The job was read, but not all of it planned or written, or a check fails where none may.
    NotAll = 1,
    /// The input cannot be read.
    Unread = 2,
}

fn main() -> ExitCode {
    let ending = match Arguments::parse().command {
        Command::Plan(arguments) => plan::run(&arguments),
        Command::Book(arguments) => book::run(&arguments),
        Command::Check(arguments) => check::run(&arguments),
        Command::Order(arguments) => order::run(&arguments),
        Command::Price(arguments) => price::run(&arguments),
        Command::Stage(arguments) => stage::run(&arguments),
        Command::Relay(arguments) => relay::run(&arguments),
        Command::Compare(arguments) => compare::run(&arguments),
        Command::Rules(arguments) => rules::run(&arguments),
        Command::Explain(arguments) => explain::run(&arguments),
        Command::Measure(arguments) => measure::run(&arguments),
        Command::Sheets(arguments) => sheets::run(&arguments),
        Command::Rates(arguments) => rates::run(&arguments),
        Command::Schema(arguments) => schema::run(&arguments),
        Command::New(arguments) => new::run(&arguments),
        Command::Import(arguments) => import::run(&arguments),
        Command::Export(arguments) => export::run(&arguments),
        Command::Serve(arguments) => serve::run(&arguments),
    };
    ExitCode::from(ending as u8)
}
