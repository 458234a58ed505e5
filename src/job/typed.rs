//! Text as typed, with the unit in force when it was typed.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

use crate::quantity::Unit;

/// What stands in a field: the text as typed and the unit a bare number in it has.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Typed {
    /// The text, untouched.
    pub text: String,
    /// The unit in force when the text was begun.
    #[serde(serialize_with = "write_unit", deserialize_with = "read_unit")]
    pub unit: Unit,
}

impl Default for Typed {
    fn default() -> Self {
        Typed { text: String::new(), unit: Unit::Inch }
    }
}

fn write_unit<S: Serializer>(unit: &Unit, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(unit.symbol())
}

fn read_unit<'de, D: Deserializer<'de>>(from: D) -> Result<Unit, D::Error> {
    let symbol = String::deserialize(from)?;
    Unit::from_symbol(&symbol).ok_or_else(|| D::Error::custom("no such unit"))
}
