//! Which unit a reference system of the EPSG dataset has.

use crate::refused::Refused;
use crate::scale::Scale;

/// Systems of plan coordinates, `from,to,unit`: made by `oracles/epsg_units.py`, which tells the sources. Only systems
/// whose plane keeps lengths within 1 in 200 over their whole area, and whose heights have the unit of the plan.
const UNITS: &str = include_str!("epsg_units.csv");

const REMEDY: &str = "Tell the unit of the coordinates with --units, if they are plan coordinates with true lengths; else \
                      convert the file to the system of your state plane or zone.";

/// The number in `EPSG:2263`, `urn:ogc:def:crs:EPSG::2263` or `https://www.opengis.net/def/crs/EPSG/0/2263`.
pub(crate) fn code(name: &str) -> Option<u32> {
    let (_, rest) = name.split_once("EPSG")?;
    rest.rsplit(|c: char| !c.is_ascii_digit()).next()?.parse().ok()
}

/// The unit of a named system.
pub(crate) fn scale(name: &str) -> Result<Scale, Refused> {
    let code = code(name);
    code.and_then(unit).ok_or_else(|| {
        let name: String = name.chars().take(80).collect();
        let says = match code {
            Some(3857 | 900_913 | 3785) => {
                format!("the reference system {name} is a web map's, which stretches lengths: by half at 48° of latitude")
            }
            _ => format!("the reference system {name} is not known to have true lengths in one unit"),
        };
        Refused::new(says, REMEDY)
    })
}

fn unit(code: u32) -> Option<Scale> {
    let rows = UNITS.lines().filter(|line| !line.starts_with('#')).map(|line| line.split(','));
    let mut fields = rows.filter_map(|mut row| Some((row.next()?.parse().ok()?, row.next()?.parse().ok()?, row.next()?)));
    match fields.find(|&(from, to, _): &(u32, u32, &str)| (from..=to).contains(&code))?.2 {
        "m" => Some(Scale::METRE),
        "ft" => Some(Scale::FOOT),
        "us-ft" => Some(Scale::US_SURVEY_FOOT),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ways_a_system_is_named() {
        for name in ["EPSG:2263", "urn:ogc:def:crs:EPSG::2263", "https://www.opengis.net/def/crs/EPSG/0/2263"] {
            assert_eq!(code(name), Some(2263), "{name}");
        }
        for name in ["", "EPSG", "EPSG:", "OGC:84", "EPSG:99999999999999", "2263"] {
            assert_eq!(code(name), None, "{name}");
        }
    }

    /// Units as the register of the EPSG dataset (IOGP, epsg.org) shows them: New York Long Island in US survey feet,
    /// Michigan South and Oregon North in international feet, zones and national grids in metres. From memory, not read.
    #[test]
    fn units_of_systems_people_use() {
        for (code, unit) in [
            (2263, Scale::US_SURVEY_FOOT),
            (2253, Scale::FOOT),
            (2269, Scale::FOOT),
            (26918, Scale::METRE),
            (32633, Scale::METRE),
            (28992, Scale::METRE),
            (7415, Scale::METRE),
            (27700, Scale::METRE),
        ] {
            assert_eq!(super::unit(code), Some(unit), "{code}");
        }
    }

    #[test]
    fn degrees_and_web_maps_are_refused() {
        for name in ["EPSG:4326", "EPSG:3857", "EPSG:6697", "EPSG:1", "none"] {
            assert!(scale(name).is_err(), "{name}");
        }
    }

    #[test]
    fn every_row_is_sound() {
        let rows: Vec<&str> = UNITS.lines().filter(|line| !line.starts_with('#')).collect();
        assert!(rows.len() > 500);
        let mut last = 0;
        for row in rows {
            let fields: Vec<&str> = row.split(',').collect();
            let [from, to, unit] = fields[..] else { panic!("{row}") };
            let [from, to] = [from, to].map(|code| code.parse::<u32>().unwrap());
            assert!(last < from && from <= to && ["m", "ft", "us-ft"].contains(&unit), "{row}");
            last = to;
        }
    }
}
