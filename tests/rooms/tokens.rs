//! Rust text cut into words and marks, for walking the rooms.

/// A piece of code with the line it stands on.
#[derive(Clone, Debug, PartialEq)]
pub struct Token {
    /// The word or mark.
    pub text: String,
    /// Its line, from 1.
    pub line: usize,
}

/// Cuts Rust text into words and marks, leaving out comments, strings and characters.
pub fn tokens(text: &str) -> Vec<Token> {
    let chars: Vec<char> = text.chars().collect();
    let (mut i, mut line, mut found) = (0, 1, Vec::new());
    let at = |i: usize| chars.get(i).copied().unwrap_or('\0');
    while i < chars.len() {
        let start = i;
        match at(i) {
            '/' if at(i + 1) == '/' => {
                while i < chars.len() && at(i) != '\n' {
                    i += 1;
                }
            }
            '/' if at(i + 1) == '*' => {
                let mut depth = 0;
                while i < chars.len() {
                    match (at(i), at(i + 1)) {
                        ('/', '*') => (depth, i) = (depth + 1, i + 2),
                        ('*', '/') => (depth, i) = (depth - 1, i + 2),
                        _ => i += 1,
                    }
                    if depth == 0 {
                        break;
                    }
                }
            }
            '"' => i = after_string(&chars, i),
            // A character in marks, as against a lifetime.
            '\'' if at(i + 1) == '\\' => {
                i += 3;
                while i < chars.len() && at(i) != '\'' {
                    i += 1;
                }
                i += 1;
            }
            '\'' if at(i + 2) == '\'' => i += 3,
            c if c.is_alphanumeric() || c == '_' => {
                while at(i).is_alphanumeric() || at(i) == '_' {
                    i += 1;
                }
                let word: String = chars[start..i].iter().collect();
                let hashes = chars[i..].iter().take_while(|c| **c == '#').count();
                if ["r", "br", "cr"].contains(&word.as_str()) && at(i + hashes) == '"' {
                    i = after_raw_string(&chars, i + hashes, hashes);
                } else {
                    found.push(Token { text: word, line });
                }
            }
            ':' if at(i + 1) == ':' => {
                found.push(Token { text: "::".to_owned(), line });
                i += 2;
            }
            c => {
                if !c.is_whitespace() {
                    found.push(Token { text: c.to_string(), line });
                }
                i += 1;
            }
        }
        line += chars[start..i.min(chars.len())].iter().filter(|c| **c == '\n').count();
    }
    found
}

fn after_string(chars: &[char], open: usize) -> usize {
    let mut i = open + 1;
    while i < chars.len() && chars[i] != '"' {
        i += if chars[i] == '\\' { 2 } else { 1 };
    }
    i + 1
}

fn after_raw_string(chars: &[char], open: usize, hashes: usize) -> usize {
    let ends = |i: usize| chars[i] == '"' && chars[i + 1..].iter().take(hashes).all(|c| *c == '#');
    (open + 1..chars.len()).find(|i| ends(*i)).map_or(chars.len(), |i| i + 1 + hashes)
}

/// Leaves out every item that is built for tests alone.
pub fn without_tests(all: &[Token]) -> Vec<Token> {
    let says = |i: usize, words: &[&str]| {
        words.iter().enumerate().all(|(k, word)| all.get(i + k).is_some_and(|token| token.text == *word))
    };
    let (mut i, mut kept) = (0, Vec::new());
    while i < all.len() {
        if says(i, &["#", "[", "cfg", "(", "test", ")", "]"]) {
            let mut depth = 0;
            while i < all.len() {
                match all[i].text.as_str() {
                    "{" => depth += 1,
                    "}" => depth -= 1,
                    _ => {}
                }
                i += 1;
                if depth == 0 && ["}", ";"].contains(&all[i - 1].text.as_str()) {
                    break;
                }
            }
        } else {
            kept.push(all[i].clone());
            i += 1;
        }
    }
    kept
}
