use std::fmt;

/// How a line turned out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    Yes,
    Perhaps,
    No,
}

/// One line of the report, and what mends it where something does.
#[derive(Debug)]
pub struct Finding {
    pub about: &'static str,
    pub sign: Sign,
    pub what: String,
    /// One line; empty where nothing is to be mended.
    pub mend: String,
}

impl Finding {
    pub(super) fn new(
        about: &'static str,
        sign: Sign,
        what: impl Into<String>,
        mend: impl Into<String>,
    ) -> Self {
        Self { about, sign, what: what.into(), mend: mend.into() }
    }

    /// Where all is well.
    pub(super) fn yes(about: &'static str, what: impl Into<String>) -> Self {
        Self::new(about, Sign::Yes, what, "")
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = match self.sign {
            Sign::Yes => "Yes",
            Sign::Perhaps => "Perhaps",
            Sign::No => "No",
        };
        writeln!(f, "{}: {sign}. {}", self.about, self.what)?;
        if self.mend.is_empty() { Ok(()) } else { writeln!(f, "    {}", self.mend) }
    }
}
