//! Text as typed, with the unit in force when it was typed.

use crate::quantity::Unit;

/// What stands in a field: the text as typed and the unit a bare number in it has.
#[derive(Clone, Debug, PartialEq)]
pub struct Typed {
    /// The text, untouched.
    pub text: String,
    /// The unit in force when the text was begun.
    pub unit: Unit,
}

impl Default for Typed {
    fn default() -> Self {
        Typed { text: String::new(), unit: Unit::Inch }
    }
}

impl Typed {
    /// Whether nothing is written in it.
    pub fn is_blank(&self) -> bool {
        self.text.trim().is_empty()
    }
}
