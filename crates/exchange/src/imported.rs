use roof::Point3;

/// What came of an import, in inches. The lowest-left corner of everything is near 0, 0, and the lowest is at height 0.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Imported {
    /// Closed outlines, each to become a block.
    pub outlines: Vec<Outline>,
    /// Flat pieces of roof.
    pub planes: Vec<Facet>,
    /// What was moved, rounded, left out or is to be checked, a sentence each.
    pub notes: Vec<String>,
}

/// The outline of one roofed volume in plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// Unlike every other name of the import.
    pub name: String,
    /// Counter-clockwise, on sixteenths of an inch.
    pub corners: Vec<[f64; 2]>,
    /// Courtyards, clockwise, on sixteenths of an inch.
    pub holes: Vec<Vec<[f64; 2]>>,
    /// Height of the lowest roof corner over it, or of the outline itself, above the lowest of the import.
    pub eave_height: f64,
    /// Its roof is among the planes already; as a block it would count twice.
    pub has_planes: bool,
}

/// A flat piece of roof.
#[derive(Debug, Clone, PartialEq)]
pub struct Facet {
    /// Unlike every other name of the import.
    pub name: String,
    /// Counter-clockwise seen from above.
    pub corners: Vec<Point3>,
    /// What is cut out of it, clockwise seen from above.
    pub holes: Vec<Vec<Point3>>,
}
