//! The JSON Schema of quantities that have their own serialisation.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};

use super::{Decimal, Exact, HalfPoints, Mass, Tempo};

macro_rules! described {
    ($($type:ty as $name:literal: $schema:tt;)*) => {
        $(impl JsonSchema for $type {
            fn schema_name() -> Cow<'static, str> {
                $name.into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!($schema)
            }
        })*
    };
}

described! {
    Mass as "Mass": {
        "description": "A mass in kilograms, to six decimals.",
        "type": "number"
    };
    Exact as "ExactMass": {
        "description": "A mass in kilograms, to six decimals.",
        "type": "number"
    };
    Decimal as "Decimal": {
        "description": "A number as written.",
        "type": "number"
    };
    HalfPoints as "HalfPoints": {
        "description": "Points of effort or pain, in halves.",
        "type": "number",
        "minimum": 0,
        "multipleOf": 0.5
    };
    Tempo as "Tempo": {
        "description": "Seconds to lower, to pause, to lift, to pause; X is as fast as possible.",
        "type": "string",
        "pattern": "^(\\d+|X)(-(\\d+|X)){3}$"
    };
}
