use serde::de::value::StrDeserializer;
use serde::de::{DeserializeSeed, Deserializer, EnumAccess, IntoDeserializer, MapAccess, SeqAccess, VariantAccess, Visitor};
use serde::forward_to_deserialize_any;

use crate::fault::Fault;

/// How deep stand-ins build stand-ins: a type may hold itself.
const DEEPEST: usize = 16;

/// Some value of whatever type is asked for: it takes the seat of a value that was refused or is missing, so that the
/// mistakes after it are found too. Nobody ever sees it, since a reading with a mistake gives no value.
#[derive(Clone, Copy)]
pub(crate) struct StandIn {
    pub(crate) depth: usize,
}

impl StandIn {
    pub(crate) const FIRST: Self = Self { depth: 0 };

    fn below(self) -> Result<Self, Fault> {
        let depth = self.depth + 1;
        if depth < DEEPEST { Ok(Self { depth }) } else { Err(Fault::wrong("", "")) }
    }
}

macro_rules! stand_in {
    ($($ask:ident => $give:ident($value:expr)),* $(,)?) => {$(
        fn $ask<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
            visitor.$give($value)
        }
    )*};
}

impl<'de> Deserializer<'de> for StandIn {
    type Error = Fault;

    stand_in! {
        deserialize_any => visit_f64(1.0),
        deserialize_bool => visit_bool(false),
        deserialize_i8 => visit_u8(1),
        deserialize_i16 => visit_u8(1),
        deserialize_i32 => visit_u8(1),
        deserialize_i64 => visit_u8(1),
        deserialize_u8 => visit_u8(1),
        deserialize_u16 => visit_u8(1),
        deserialize_u32 => visit_u8(1),
        deserialize_u64 => visit_u8(1),
        deserialize_char => visit_char(' '),
        deserialize_str => visit_str(""),
        deserialize_string => visit_str(""),
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_none()
    }

    fn deserialize_unit<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_unit()
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_tuple(0, visitor)
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_seq(Row { left: length, value: self.below()? })
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        self.deserialize_tuple(length, visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_struct("", &[], visitor)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_map(Fields { left: fields, value: self.below()? })
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let first = variants.first().copied().unwrap_or_default();
        visitor.visit_enum(Variant { name: first, value: self.below()? })
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_unit()
    }

    forward_to_deserialize_any! { f32 f64 bytes byte_buf unit_struct identifier }
}

struct Row {
    left: usize,
    value: StandIn,
}

impl<'de> SeqAccess<'de> for Row {
    type Error = Fault;

    fn next_element_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Fault> {
        let Some(left) = self.left.checked_sub(1) else {
            return Ok(None);
        };
        self.left = left;
        seed.deserialize(self.value).map(Some)
    }
}

struct Fields {
    left: &'static [&'static str],
    value: StandIn,
}

impl<'de> MapAccess<'de> for Fields {
    type Error = Fault;

    fn next_key_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Fault> {
        let Some((first, rest)) = self.left.split_first() else {
            return Ok(None);
        };
        self.left = rest;
        let key: StrDeserializer<'_, Fault> = first.into_deserializer();
        seed.deserialize(key).map(Some)
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, Fault> {
        seed.deserialize(self.value)
    }
}

struct Variant {
    name: &'static str,
    value: StandIn,
}

impl<'de> EnumAccess<'de> for Variant {
    type Error = Fault;
    type Variant = Self;

    fn variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<(S::Value, Self), Fault> {
        let name: StrDeserializer<'_, Fault> = self.name.into_deserializer();
        Ok((seed.deserialize(name)?, self))
    }
}

impl<'de> VariantAccess<'de> for Variant {
    type Error = Fault;

    fn unit_variant(self) -> Result<(), Fault> {
        Ok(())
    }

    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, Fault> {
        seed.deserialize(self.value)
    }

    fn tuple_variant<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Fault> {
        self.value.deserialize_tuple(length, visitor)
    }

    fn struct_variant<V: Visitor<'de>>(self, fields: &'static [&'static str], visitor: V) -> Result<V::Value, Fault> {
        self.value.deserialize_struct("", fields, visitor)
    }
}
