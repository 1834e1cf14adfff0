use covering::Covering;
use units::Mass;

/// Pallets of field units, each lifted once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pallets {
    /// How many; the last may not be full.
    pub count: u64,
    /// Packs on a full one.
    pub packs: u64,
    /// Of a full one, its own weight included.
    pub full: Mass,
    /// Of the last one.
    pub last: Mass,
}

/// Pallets that hold so many packs of field units; nothing where the sheet does not tell how many lie on one.
#[must_use]
pub fn pallets(covering: &Covering, packs: u64) -> Option<Pallets> {
    let storage = covering.conditions.storage.as_ref()?;
    let on_one = u64::from(storage.pallet_packs?);
    let count = packs.div_ceil(on_one);
    let pack = covering.unit.weight * f64::from(covering.pack.count);
    let holding = |packs: u64| pack * packs as f64 + storage.pallet_weight;
    let on_last = packs - count.saturating_sub(1) * on_one;
    Some(Pallets { count, packs: on_one, full: holding(on_one.min(packs)), last: holding(on_last) })
}
