use toml_parser::lexer::TokenKind;

use crate::mistake::Text;
use crate::{Format, Mistake};

/// A text of more bytes than this is refused: nobody types that much.
pub const LARGEST: usize = 4 << 20;

/// How deep tables and lists may stand in each other, so that no reading outgrows the stack.
const DEEPEST: usize = 64;

/// The text of a file's bytes.
///
/// # Errors
/// Bytes that are no UTF-8, with the line on which they begin.
pub fn decode(bytes: &[u8]) -> Result<&str, Mistake> {
    std::str::from_utf8(bytes).map_err(|error| {
        let line = 1 + bytes[..error.valid_up_to()].iter().filter(|&&byte| byte == b'\n').count();
        Mistake {
            span: 0..0,
            line,
            path: String::new(),
            says: "the file is not plain text in UTF-8".into(),
            remedy: "Save it again as plain text with the encoding UTF-8.".into(),
        }
    })
}

/// Why a text is refused before it is parsed.
pub(crate) fn refusal(text: &str, format: Format) -> Option<Mistake> {
    if text.len() > LARGEST {
        let megabytes = text.len() as f64 / f64::from(1 << 20);
        let says = format!("the file is too large: {megabytes:.1} MB, where 4 MB is the most");
        return Some(Text::new("").mistake(0..0, says, "Check that this is the right file."));
    }
    if let Some((at, noise)) = text.char_indices().find(|&(_, c)| c.is_control() && !matches!(c, '\t' | '\n' | '\r')) {
        let says = format!("this is not a text file: the character U+{:04X} stands here", u32::from(noise));
        return Some(Text::new(text).mistake(at..at + noise.len_utf8(), says, "Check that this is the right file."));
    }
    let too_deep = match format {
        Format::Toml => too_deep_toml(text),
        Format::Json => too_deep_json(text),
    };
    let says = format!("tables and lists stand in each other more than {DEEPEST} deep");
    too_deep.map(|at| Text::new(text).mistake(at..at + 1, says, "Check that this is the right file."))
}

/// Brackets outside of strings; an inline key of many parts nests too: a.b.c = 1.
fn too_deep_toml(text: &str) -> Option<usize> {
    let (mut outside, mut parts) = (Vec::new(), 1_usize);
    for token in toml_parser::Source::new(text).lex() {
        match token.kind() {
            TokenKind::LeftSquareBracket | TokenKind::LeftCurlyBracket => {
                outside.push(parts);
                parts = 1;
            }
            TokenKind::RightSquareBracket | TokenKind::RightCurlyBracket => parts = outside.pop().unwrap_or(1),
            TokenKind::Dot => parts += 1,
            TokenKind::Comma | TokenKind::Newline => parts = 1,
            _ => {}
        }
        if outside.iter().sum::<usize>() + parts > DEEPEST {
            return Some(token.span().start());
        }
    }
    None
}

fn too_deep_json(text: &str) -> Option<usize> {
    let (mut depth, mut quoted, mut escaped) = (0_usize, false, false);
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            _ if escaped => escaped = false,
            b'\\' if quoted => escaped = true,
            b'"' => quoted = !quoted,
            b'[' | b'{' if !quoted => depth += 1,
            b']' | b'}' if !quoted => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth > DEEPEST {
            return Some(at);
        }
    }
    None
}
