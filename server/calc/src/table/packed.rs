use super::looks::{Look, ordered};

/// Hours of packed looks count in ten-thousandths.
const PER_HOUR: f64 = 1e4;

/// Looks in order of time, each in about six bytes: a large club has millions of them in memory. Each is four numbers
/// (ten-thousandths of an hour since the look before, to which it is rounded; rooted, abnormal, dead) in seven bits a byte,
/// the last byte of a number without its high bit (LEB128, as in DWARF 5, section 7.6).
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Packed(Box<[u8]>);

impl Packed {
    /// The looks one after the other.
    #[must_use]
    pub fn iter(&self) -> Iter<'_> {
        Iter { rest: &self.0, at: 0 }
    }

    /// The latest look.
    #[must_use]
    pub fn last(&self) -> Option<Look> {
        self.iter().last()
    }

    /// All looks at once.
    #[must_use]
    pub fn to_vec(&self) -> Vec<Look> {
        self.iter().collect()
    }
}

impl<'a> IntoIterator for &'a Packed {
    type Item = Look;
    type IntoIter = Iter<'a>;

    fn into_iter(self) -> Iter<'a> {
        self.iter()
    }
}

impl From<&[Look]> for Packed {
    fn from(looks: &[Look]) -> Self {
        let (mut bytes, mut before) = (Vec::new(), 0_u32);
        for look in ordered(looks) {
            let at = (look.hours * PER_HOUR).round() as u32;
            for number in [at.saturating_sub(before), look.rooted, look.abnormal, look.dead] {
                put(&mut bytes, number);
            }
            before = at;
        }
        Self(bytes.into())
    }
}

fn put(bytes: &mut Vec<u8>, mut number: u32) {
    while number >= 0x80 {
        bytes.push(number as u8 | 0x80);
        number >>= 7;
    }
    bytes.push(number as u8);
}

/// The looks one after the other.
#[derive(Debug, Clone)]
pub struct Iter<'a> {
    rest: &'a [u8],
    at: u32,
}

impl Iter<'_> {
    fn number(&mut self) -> Option<u32> {
        let mut number = 0;
        for shift in (0..u32::BITS).step_by(7) {
            let (byte, rest) = self.rest.split_first()?;
            self.rest = rest;
            number |= u32::from(byte & 0x7f) << shift;
            if byte & 0x80 == 0 {
                break;
            }
        }
        Some(number)
    }
}

impl Iterator for Iter<'_> {
    type Item = Look;

    fn next(&mut self) -> Option<Look> {
        self.at += self.number()?;
        let hours = f64::from(self.at) / PER_HOUR;
        let (rooted, abnormal, dead) = (self.number()?, self.number()?, self.number()?);
        Some(Look { hours, rooted, abnormal, dead })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hours(exactly: f64) -> f64 {
        (exactly * PER_HOUR).round() / PER_HOUR
    }

    #[test]
    fn looks_come_back_as_they_were() {
        let look = |seconds: u32, rooted, abnormal, dead| Look {
            hours: hours(f64::from(seconds) / 3600.0),
            rooted,
            abnormal,
            dead,
        };
        let looks = [
            look(60, 1, 0, 0),
            look(61, 0, 127, 128),
            look(86_401, 16_383, 16_384, 100_000),
            look(400_000_000, u32::MAX, 0, 1),
        ];
        let packed = Packed::from(&looks[..]);
        assert_eq!(packed.to_vec(), looks);
        assert_eq!(packed.last(), Some(looks[3]));
        assert_eq!(Packed::default().last(), None);
        for seconds in (1..40_000_000).step_by(997) {
            let one = [look(seconds, 2, 0, 0), look(seconds + 5, 0, 0, 0)];
            assert_eq!(Packed::from(&one[..]).to_vec(), one, "{seconds}");
        }
    }

    #[test]
    fn looks_of_any_order_keep_their_times() {
        let at = |hours| Look { hours, rooted: 1, abnormal: 0, dead: 0 };
        assert_eq!(
            Packed::from(&[at(72.0), at(24.0), at(48.5)][..]).to_vec(),
            [at(24.0), at(48.5), at(72.0)]
        );
    }

    #[test]
    fn a_look_of_every_day_takes_six_bytes() {
        let days = (1..=10).map(|day| Look { hours: 24.0 * f64::from(day), rooted: 3, abnormal: 0, dead: 1 });
        assert_eq!(Packed::from(&days.collect::<Vec<_>>()[..]).0.len(), 60);
    }
}
