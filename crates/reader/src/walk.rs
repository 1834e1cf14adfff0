use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, Error, IntoDeserializer, MapAccess, SeqAccess, Unexpected, VariantAccess,
    Visitor,
};
use serde::forward_to_deserialize_any;

use crate::fault::{Fault, Kind};
use crate::node::{Entry, Node, Value};
use crate::standin::StandIn;
use crate::trial::Trial;

/// Hands a node to serde.
#[derive(Clone, Copy)]
pub(crate) struct Walk<'t> {
    pub(crate) node: &'t Node,
    pub(crate) trial: &'t Trial<'t>,
}

impl<'t> Walk<'t> {
    fn child<S: DeserializeSeed<'t>>(self, node: &'t Node, seed: S) -> Result<S::Value, Fault> {
        if self.trial.is_refused(node.id) { self.stand_in(seed) } else { seed.deserialize(Walk { node, ..self }) }
    }

    fn stand_in<S: DeserializeSeed<'t>>(self, seed: S) -> Result<S::Value, Fault> {
        seed.deserialize(StandIn::FIRST).map_err(|_| Fault::follows(self.node.id))
    }

    fn table<V: Visitor<'t>>(
        self,
        entries: &'t [Entry],
        known: Option<&'static [&'static str]>,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let mut table = Table { walk: self, entries: entries.iter(), known, value: None };
        visitor.visit_map(&mut table)
    }

    fn visit<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.node.value {
            Value::Nothing => visitor.visit_unit(),
            Value::Bool(value) => visitor.visit_bool(*value),
            Value::Whole(value) => visitor.visit_i64(*value),
            Value::Number(value) => visitor.visit_f64(*value),
            Value::Text(text) => visitor.visit_str(text),
            Value::Date => Err(Fault::invalid_type(Unexpected::Other("a date"), &visitor)),
            Value::List(items) => self.list(items, visitor),
            Value::Table(entries) => self.table(entries, None, visitor),
        }
    }

    fn list<V: Visitor<'t>>(self, items: &'t [Node], visitor: V) -> Result<V::Value, Fault> {
        let mut list = List { walk: self, items: items.iter() };
        let whole = visitor.visit_seq(&mut list)?;
        match list.items.len() {
            0 => Ok(whole),
            over => Err(too_long(items.len(), items.len() - over)),
        }
    }

    /// The text or number itself, before the words of the type that refused it.
    fn shown(self) -> String {
        match &self.node.value {
            Value::Text(text) => format!("{}: ", crate::quoted(text)),
            Value::Whole(value) => format!("{value}: "),
            Value::Number(value) => format!("{value}: "),
            _ => String::new(),
        }
    }

    /// A type that refuses a value with words of its own tells what is wrong; what it expects is the remedy.
    fn placed(self, mut fault: Fault, expected: Option<String>) -> Fault {
        if fault.at.is_none()
            && let Kind::Wrong { says, remedy } = &mut fault.kind
            && remedy.is_empty()
        {
            says.insert_str(0, &self.shown());
            *remedy = expected.map_or_else(|| "Correct the value.".into(), |what| format!("Write {what}."));
        }
        fault.at(self.node.id)
    }
}

fn too_long(is: usize, wanted: usize) -> Fault {
    Fault::wrong(format!("a list of {wanted} values was expected, this is a list of {is}"), "Remove the values too many.")
}

impl<'t> Deserializer<'t> for Walk<'t> {
    type Error = Fault;

    fn deserialize_any<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Fault> {
        if let Value::Number(value) = self.node.value
            && !value.is_finite()
        {
            return Err(Fault::wrong("this is not an ordinary number", "Write a number such as 12.5.").at(self.node.id));
        }
        let scalar = !matches!(self.node.value, Value::List(_) | Value::Table(_));
        let expected = scalar.then(|| crate::words::expected(&visitor));
        self.visit(visitor).map_err(|fault| self.placed(fault, expected))
    }

    fn deserialize_option<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.node.value {
            Value::Nothing => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'t>>(self, _: &'static str, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self).map_err(|fault| self.placed(fault, None))
    }

    fn deserialize_struct<V: Visitor<'t>>(
        self,
        _: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        match &self.node.value {
            Value::Table(entries) => {
                self.trial.note_unknown(self.node.id, entries, fields);
                self.table(entries, Some(fields), visitor).map_err(|fault| self.placed(fault, None))
            }
            // A list would be taken for the fields in their order: nobody writes that on purpose.
            Value::List(_) => Err(Fault::invalid_type(Unexpected::Seq, &visitor).at(self.node.id)),
            _ => self.deserialize_any(visitor),
        }
    }

    fn deserialize_enum<V: Visitor<'t>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let chosen = match &self.node.value {
            Value::Text(name) => Chosen { walk: self, name, value: None },
            Value::Table(entries) if entries.len() == 1 => {
                Chosen { walk: self, name: &entries[0].key, value: Some(&entries[0].node) }
            }
            _ => return self.deserialize_any(visitor),
        };
        visitor.visit_enum(chosen).map_err(|fault| self.placed(fault, None))
    }

    fn deserialize_ignored_any<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_unit()
    }

    forward_to_deserialize_any! {
        <W: Visitor<'t>>
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct seq tuple
        tuple_struct map identifier
    }
}

struct List<'t> {
    walk: Walk<'t>,
    items: std::slice::Iter<'t, Node>,
}

impl<'t> SeqAccess<'t> for &mut List<'t> {
    type Error = Fault;

    fn next_element_seed<S: DeserializeSeed<'t>>(&mut self, seed: S) -> Result<Option<S::Value>, Fault> {
        self.items.next().map(|item| self.walk.child(item, seed)).transpose()
    }
}

/// The entries of a table that its type knows, then stand-ins for the keys that are missing.
struct Table<'t> {
    walk: Walk<'t>,
    entries: std::slice::Iter<'t, Entry>,
    known: Option<&'static [&'static str]>,
    /// Of the key just handed out; none for a stand-in.
    value: Option<&'t Node>,
}

impl<'t> Table<'t> {
    fn advance(&mut self) -> Option<&'t str> {
        let known = self.known;
        if let Some(entry) = self.entries.find(|entry| known.is_none_or(|keys| keys.contains(&entry.key.as_str()))) {
            self.value = Some(&entry.node);
            return Some(&entry.key);
        }
        self.value = None;
        let missing = self.known?.iter().position(|key| self.walk.trial.is_missing(self.walk.node.id, key))?;
        let key = self.known?[missing];
        self.known = Some(&self.known?[missing + 1..]);
        Some(key)
    }
}

impl<'t> MapAccess<'t> for &mut Table<'t> {
    type Error = Fault;

    fn next_key_seed<S: DeserializeSeed<'t>>(&mut self, seed: S) -> Result<Option<S::Value>, Fault> {
        let Some(key) = self.advance() else {
            return Ok(None);
        };
        let key: StrDeserializer<'_, Fault> = key.into_deserializer();
        seed.deserialize(key).map(Some)
    }

    fn next_value_seed<S: DeserializeSeed<'t>>(&mut self, seed: S) -> Result<S::Value, Fault> {
        match self.value {
            Some(node) => self.walk.child(node, seed),
            None => self.walk.stand_in(seed),
        }
    }
}

/// A variant by its name alone, or a table with the name as its one key.
struct Chosen<'t> {
    walk: Walk<'t>,
    name: &'t str,
    value: Option<&'t Node>,
}

impl<'t> Chosen<'t> {
    fn inside(&self) -> Result<&'t Node, Fault> {
        let says =
            || Fault::wrong(format!("{} needs a value", crate::quoted(self.name)), "Write it as a table with that key.");
        self.value.ok_or_else(says)
    }
}

impl<'t> EnumAccess<'t> for Chosen<'t> {
    type Error = Fault;
    type Variant = Self;

    fn variant_seed<S: DeserializeSeed<'t>>(self, seed: S) -> Result<(S::Value, Self), Fault> {
        let name: StrDeserializer<'_, Fault> = self.name.into_deserializer();
        Ok((seed.deserialize(name)?, self))
    }
}

impl<'t> VariantAccess<'t> for Chosen<'t> {
    type Error = Fault;

    fn unit_variant(self) -> Result<(), Fault> {
        match self.value {
            None => Ok(()),
            Some(_) => Err(Fault::wrong("a word in quotes was expected, this is a table", "Write the word alone.")),
        }
    }

    fn newtype_variant_seed<S: DeserializeSeed<'t>>(self, seed: S) -> Result<S::Value, Fault> {
        self.walk.child(self.inside()?, seed)
    }

    fn tuple_variant<V: Visitor<'t>>(self, length: usize, visitor: V) -> Result<V::Value, Fault> {
        Walk { node: self.inside()?, ..self.walk }.deserialize_tuple(length, visitor)
    }

    fn struct_variant<V: Visitor<'t>>(self, fields: &'static [&'static str], visitor: V) -> Result<V::Value, Fault> {
        Walk { node: self.inside()?, ..self.walk }.deserialize_struct("", fields, visitor)
    }
}
