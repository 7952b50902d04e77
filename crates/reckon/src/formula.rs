//! Evaluates the small expressions that figures carry, so that what is explained is what was
//! computed. Numbers, symbols, `+ - * / ^`, brackets, unary minus, and
//! `sqrt abs ceil exp ln min max sum`, and `pi`. Symbols are letters, digits, `_`, beginning with a letter.
//! `sum()` without arguments adds all inputs; `max()` and `min()` likewise take all inputs.

/// What can be wrong with a formula. These are defects of the program, not of the job.
#[derive(Debug, Clone, PartialEq)]
pub enum FormulaError {
    /// The text does not read as an expression.
    Syntax {
        /// Byte place in the formula.
        at: usize,
        /// The formula.
        formula: String,
    },
    /// A symbol in the formula has no input.
    NoSymbol {
        /// The symbol.
        symbol: String,
        /// The formula.
        formula: String,
    },
    /// An input names a figure that is not in the book.
    NoFigure {
        /// The symbol.
        symbol: String,
        /// The key that was looked for.
        key: String,
    },
}

impl std::fmt::Display for FormulaError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Syntax { at, formula } => write!(f, "formula `{formula}` does not read at {at}"),
            Self::NoSymbol { symbol, formula } => {
                write!(f, "formula `{formula}` uses `{symbol}`, which has no input")
            }
            Self::NoFigure { symbol, key } => {
                write!(
                    f,
                    "input `{symbol}` names the figure `{key}`, which is not in the book"
                )
            }
        }
    }
}

impl std::error::Error for FormulaError {}

/// Evaluates `formula` over named values.
///
/// # Example
/// ```
/// let q = reckon::evaluate("U * A * (Ti - To)", &[("U", 0.5), ("A", 10.0), ("Ti", 20.0), ("To", -10.0)]);
/// assert_eq!(q, Ok(150.0));
/// ```
///
/// # Errors
/// Text that does not read, or a symbol without a value.
pub fn evaluate(formula: &str, named: &[(&str, f64)]) -> Result<f64, FormulaError> {
    let mut reader = Reader {
        text: formula,
        at: 0,
        named,
        depth: 0,
    };
    let value = reader.sum()?;
    reader.space();
    if reader.at == formula.len() {
        Ok(value)
    } else {
        Err(reader.syntax())
    }
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
    named: &'a [(&'a str, f64)],
    depth: u8,
}

impl Reader<'_> {
    fn syntax(&self) -> FormulaError {
        FormulaError::Syntax {
            at: self.at,
            formula: self.text.to_owned(),
        }
    }

    fn space(&mut self) {
        while self
            .text
            .as_bytes()
            .get(self.at)
            .is_some_and(u8::is_ascii_whitespace)
        {
            self.at += 1;
        }
    }

    fn eat(&mut self, c: u8) -> bool {
        self.space();
        let hit = self.text.as_bytes().get(self.at) == Some(&c);
        if hit {
            self.at += 1;
        }
        hit
    }

    fn sum(&mut self) -> Result<f64, FormulaError> {
        let mut value = self.product()?;
        loop {
            if self.eat(b'+') {
                value += self.product()?;
            } else if self.eat(b'-') {
                value -= self.product()?;
            } else {
                return Ok(value);
            }
        }
    }

    fn product(&mut self) -> Result<f64, FormulaError> {
        let mut value = self.signed()?;
        loop {
            if self.eat(b'*') {
                value *= self.signed()?;
            } else if self.eat(b'/') {
                value /= self.signed()?;
            } else {
                return Ok(value);
            }
        }
    }

    fn signed(&mut self) -> Result<f64, FormulaError> {
        if self.eat(b'-') {
            return Ok(-self.signed()?);
        }
        let base = self.atom()?;
        if self.eat(b'^') {
            Ok(libm::pow(base, self.signed()?))
        } else {
            Ok(base)
        }
    }

    fn atom(&mut self) -> Result<f64, FormulaError> {
        if self.eat(b'(') {
            self.depth += 1;
            if self.depth > 32 {
                return Err(self.syntax());
            }
            let value = self.sum()?;
            self.depth -= 1;
            return if self.eat(b')') {
                Ok(value)
            } else {
                Err(self.syntax())
            };
        }
        self.space();
        let rest = &self.text[self.at..];
        let first = rest.bytes().next().unwrap_or(b' ');
        if first.is_ascii_digit() {
            let end = number_end(rest.as_bytes());
            let value = rest[..end].parse().map_err(|_| self.syntax())?;
            self.at += end;
            return Ok(value);
        }
        if !first.is_ascii_alphabetic() {
            return Err(self.syntax());
        }
        let end = rest
            .bytes()
            .position(|b| !(b.is_ascii_alphanumeric() || b == b'_'))
            .unwrap_or(rest.len());
        let name = &rest[..end];
        self.at += end;
        if self.eat(b'(') {
            return self.call(name);
        }
        self.named
            .iter()
            .find(|(n, _)| *n == name)
            .map(|(_, v)| *v)
            .or((name == "pi").then_some(std::f64::consts::PI))
            .ok_or_else(|| FormulaError::NoSymbol {
                symbol: name.to_owned(),
                formula: self.text.to_owned(),
            })
    }

    fn call(&mut self, name: &str) -> Result<f64, FormulaError> {
        let mut args = Vec::new();
        if self.eat(b')') {
            args.extend(self.named.iter().map(|(_, v)| *v));
        } else {
            loop {
                args.push(self.sum()?);
                if self.eat(b')') {
                    break;
                }
                if !self.eat(b',') {
                    return Err(self.syntax());
                }
            }
        }
        match (name, args.as_slice()) {
            ("sqrt", [x]) => Ok(x.sqrt()),
            ("abs", [x]) => Ok(x.abs()),
            ("ceil", [x]) => Ok(x.ceil()),
            ("exp", [x]) => Ok(libm::exp(*x)),
            ("ln", [x]) => Ok(libm::log(*x)),
            // From nothing, for a sum of none is not minus nothing.
            ("sum", all) => Ok(all.iter().fold(0.0, |sum, x| sum + x)),
            ("min", all) if !all.is_empty() => {
                Ok(all.iter().copied().fold(f64::INFINITY, f64::min))
            }
            ("max", all) if !all.is_empty() => {
                Ok(all.iter().copied().fold(f64::NEG_INFINITY, f64::max))
            }
            _ => Err(self.syntax()),
        }
    }
}

fn number_end(bytes: &[u8]) -> usize {
    let mut end = 0;
    while end < bytes.len() {
        let exponent_sign =
            matches!(bytes[end], b'+' | b'-') && end > 0 && matches!(bytes[end - 1], b'e' | b'E');
        let exponent = matches!(bytes[end], b'e' | b'E')
            && bytes
                .get(end + 1)
                .is_some_and(|b| b.is_ascii_digit() || matches!(b, b'+' | b'-'));
        if bytes[end].is_ascii_digit() || bytes[end] == b'.' || exponent || exponent_sign {
            end += 1;
        } else {
            break;
        }
    }
    end
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_figures_carry() {
        let v = [("a", 2.0), ("b", 3.0), ("n", 0.5)];
        for (text, want) in [
            ("a + b * 2", 8.0),
            ("(a + b) * 2", 10.0),
            ("-a ^ 2", -4.0),
            ("a ^ n * 2", 2.0_f64.sqrt() * 2.0),
            ("sum()", 5.5),
            ("max(a, b, 1e1)", 10.0),
            ("min()", 0.5),
            ("1.5e-1 * a", 0.3),
            ("abs(a - b)", 1.0),
        ] {
            let got = evaluate(text, &v).expect(text);
            assert!((got - want).abs() < 1e-12, "{text}: {got} against {want}");
        }
    }

    #[test]
    fn refuses_what_does_not_read() {
        for text in ["", "a +", "(a", "a b", "q", "sqrt(a, b)", "2 ** 3", "$"] {
            assert!(evaluate(text, &[("a", 1.0), ("b", 2.0)]).is_err(), "{text}");
        }
        let deep = "(".repeat(500) + "1" + &")".repeat(500);
        assert!(evaluate(&deep, &[]).is_err());
    }
}
