use units::Temperature;

/// The day on which units are laid; what was not told is unknown.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Laying {
    /// Of the units themselves, on the stack.
    pub unit_temperature: Option<Temperature>,
    /// Of the air.
    pub air_temperature: Option<Temperature>,
    /// Hours for which the units have been at that temperature or warmer.
    pub hours_conditioned: Option<f64>,
    /// Where the units are stored.
    pub store_temperature: Option<Temperature>,
    /// Colour of the chalk.
    pub chalk: Option<String>,
}
