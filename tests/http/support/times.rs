/// How many times a harness goes round: `usual`, or what the environment asks for by `name`.
#[expect(clippy::disallowed_methods, reason = "how long a harness runs is for whoever runs it")]
pub fn times(name: &str, usual: usize) -> usize {
    std::env::var(name).ok().map_or(usual, |asked| asked.parse().expect("a number of times"))
}
