use std::ops::Range;

/// One value of a text with its bytes. Nodes are numbered from the root down, so that those below a node have the
/// numbers after its own up to `end`.
#[derive(Debug, Clone)]
pub(crate) struct Node {
    pub(crate) span: Range<usize>,
    pub(crate) value: Value,
    pub(crate) id: usize,
    pub(crate) end: usize,
}

#[derive(Debug, Clone)]
pub(crate) enum Value {
    Nothing,
    Bool(bool),
    Whole(i64),
    Number(f64),
    Text(String),
    /// TOML has dates; no file of ours does.
    Date,
    List(Vec<Node>),
    Table(Vec<Entry>),
}

#[derive(Debug, Clone)]
pub(crate) struct Entry {
    pub(crate) key: String,
    pub(crate) key_span: Range<usize>,
    pub(crate) node: Node,
}

impl Node {
    pub(crate) fn new(span: Range<usize>, value: Value) -> Self {
        Self { span, value, id: 0, end: 0 }
    }

    /// The tree of a text without content.
    pub(crate) fn nothing() -> Self {
        Self::new(0..0, Value::Table(Vec::new()))
    }

    /// Numbers this node and all below it; returns the next free number.
    pub(crate) fn number(&mut self, from: usize) -> usize {
        self.id = from;
        self.end = match &mut self.value {
            Value::List(items) => items.iter_mut().fold(from + 1, |next, item| item.number(next)),
            Value::Table(entries) => entries.iter_mut().fold(from + 1, |next, entry| entry.node.number(next)),
            _ => from + 1,
        };
        self.end
    }

    /// The value under a key of a table.
    pub(crate) fn get(&self, key: &str) -> Option<&Self> {
        match &self.value {
            Value::Table(entries) => entries.iter().find(|entry| entry.key == key).map(|entry| &entry.node),
            _ => None,
        }
    }

    /// An item of a list.
    pub(crate) fn item(&self, index: usize) -> Option<&Self> {
        match &self.value {
            Value::List(items) => items.get(index),
            _ => None,
        }
    }

    pub(crate) fn is_empty_table(&self) -> bool {
        matches!(&self.value, Value::Table(entries) if entries.is_empty())
    }

    fn holds(&self, id: usize) -> bool {
        (self.id..self.end).contains(&id)
    }

    /// The node with a number, and its path.
    pub(crate) fn find(&self, id: usize) -> (&Self, String) {
        let mut path = String::new();
        let mut node = self;
        while node.id != id {
            let below = match &node.value {
                Value::List(items) => items
                    .iter()
                    .enumerate()
                    .find(|(_, item)| item.holds(id))
                    .map(|(index, item)| (item, format!("[{index}]"))),
                Value::Table(entries) => {
                    entries.iter().find(|entry| entry.node.holds(id)).map(|entry| (&entry.node, key_step(&path, &entry.key)))
                }
                _ => None,
            };
            let Some((next, step)) = below else { break };
            path.push_str(&step);
            node = next;
        }
        (node, path)
    }
}

/// `.key`, or `key` at the beginning of a path.
pub(crate) fn key_step(path: &str, key: &str) -> String {
    let key = crate::words::cut(key);
    if path.is_empty() { key } else { format!(".{key}") }
}
