use crate::Ending;
use crate::output::print;

/// Print the rates that ship, all invented, to copy and type your own into
#[derive(clap::Args)]
pub(crate) struct Arguments {}

pub(crate) fn run(_: &Arguments) -> Ending {
    print(price::SHIPPED)
}
