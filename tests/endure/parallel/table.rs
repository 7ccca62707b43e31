/// Who sends a form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum By {
    Agnes,
    /// Agnes on a device of its own, since the form ends sessions.
    Device,
    /// A member who joined just now.
    Newcomer,
    Stranger,
}
use By::*;

/// What eight copies lead to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Leads {
    /// To what one copy leads to.
    Once,
    /// To a page that changes nothing, or to as many sessions as there are copies.
    Page,
}
use Leads::*;

/// A form: its address as the router has it, who sends it, the page it stands on and its address there, and what is typed.
/// What stands in braces is made anew each time. A page that is empty: a form of no page. A field that begins with `+` is
/// not on the page as it is first drawn.
pub struct Post {
    pub route: &'static str,
    pub by: By,
    pub leads: Leads,
    pub page: &'static str,
    pub action: &'static str,
    pub fields: &'static [(&'static str, &'static str)],
}

type Line = (&'static str, By, Leads, &'static str, &'static str, &'static [(&'static str, &'static str)]);

/// What takes or gives files between installations: the file is made anew each time and writes nothing, and a table that
/// is brought in twice is in tests/http/transfer/clubs.rs.
pub const FILES: [&str; 3] = ["/clubs/import", "/clubs/import/confirm", "/clubs/table.zip"];

/// What ends a session, proves who one is, erases a member, or needs a device's signature: a copy that comes later meets
/// nobody signed in, or what was asked is used up. Tried in tests/http/{sessions,own,throttle}.rs and tests/browser/passkeys.rs.
pub const ENDING: [&str; 9] = [
    "/me/data/copy.zip",
    "/me/data/erase",
    "/me/passkeys",
    "/me/passkeys/ask",
    "/me/passkeys/{id}/remove",
    "/me/proof",
    "/me/sessions/{id}/end",
    "/sign-in/passkey",
    "/sign-in/passkey/ask",
];

const PACKET: &[(&str, &str)] =
    &[("kind", "Pepper"), ("variety", "Fenside Lantern"), ("source", "Lode Lane Seeds"), ("seeds", "5")];
const RING: &[(&str, &str)] = &[
    ("name", "{name}"),
    ("packet", "{lot}"),
    ("packet", "{lot2}"),
    ("grower", "{grower}"),
    ("grower", "{grower2}"),
];
const JOIN: &[(&str, &str)] = &[
    ("name", "{name}"),
    ("sign_in", "{name}"),
    ("letters", "{letters}"),
    ("password", "four unrelated words here"),
];
const MIX: &[(&str, &str)] = &[
    ("agent", "hydrogen peroxide"),
    ("stock", "3"),
    ("strength", "1.5"),
    ("vessels", "1"),
    ("size", "50"),
    ("measure", "ml"),
];
const SHEET: &str = "/labels/sheets/new?from=roll-62x29";
const LIST: &str = "variety,kind,source,seeds,note\nFenside Lantern,Pepper,Lode Lane Seeds,7,{name}\n";
const COUNTS: &str = "bag,date,rooted\n{mark},2026-03-02 17:00,1\n";

/// Every form of the program; a route that is not in here fails the test.
#[rustfmt::skip]
const TABLE: &[Line] = &[
    ("/sign-in", Stranger, Page, "/sign-in", "/sign-in", &[("sign_in", "bartek"), ("password", "a growing club of our own")]),
    ("/sign-out", Device, Page, "/me", "/sign-out", &[]),
    ("/join/{token}", Stranger, Once, "/join/{invitation}", "", JOIN),
    ("/reset/{token}", Stranger, Once, "/reset/{reset}", "", &[("password", "four unrelated words here")]),
    ("/members/invite", Agnes, Once, "/members", "/members/invite", &[("role", "grower")]),
    ("/members/links/{id}/withdraw", Agnes, Once, "/members", "/members/links/{link}/withdraw", &[]),
    ("/members/{id}/reset", Agnes, Once, "/members/{peer}", "/members/{peer}/reset", &[]),
    ("/members/{id}/role", Agnes, Once, "/members/{peer}", "/members/{peer}/role", &[("role", "organiser")]),
    ("/members/{id}/leave", Agnes, Once, "/members/{peer}", "/members/{peer}/leave", &[("sure", "yes")]),
    ("/me", Agnes, Once, "/me", "/me", &[("name", "{name}")]),
    ("/me/letters", Newcomer, Once, "/me", "/me/letters", &[("letters", "{letters}")]),
    ("/me/password", Newcomer, Once, "/me", "/me/password", &[("current", "four unrelated words here"), ("password", "five other words of mine")]),
    ("/me/calendar", Newcomer, Once, "/me", "/me/calendar", &[]),
    ("/me/calendar/end", Newcomer, Once, "", "/me/calendar/end", &[]),
    ("/members/{id}/sessions", Agnes, Once, "/members/{peer}", "/members/{peer}/sessions", &[]),
    ("/me/sessions", Newcomer, Once, "/me", "/me/sessions", &[]),
    ("/me/tokens", Newcomer, Once, "/me/tokens", "/me/tokens", &[("name", "scale")]),
    ("/me/tokens/{id}/end", Agnes, Once, "/me/tokens", "/me/tokens/{token}/end", &[]),
    ("/looks", Agnes, Once, "/looks?all=yes", "/looks", &[("rooted-{bag}", "1")]),
    ("/bags/unknown", Agnes, Once, "/bags/unknown", "/bags/unknown", &[("bag", "{bag}"), ("bag", "{bag2}"), ("outcome", "in doubt"), ("note", "fell")]),
    ("/bags/{id}/count", Agnes, Once, "/bags/{bag}", "/bags/{bag}/count", &[("rooted", "2")]),
    ("/bags/{id}/happened", Agnes, Once, "/bags/{bag}/happened", "/bags/{bag}/happened", &[("happened", "damped")]),
    ("/bags/{id}/elsewhere", Agnes, Once, "/bags/{bag}/elsewhere", "/bags/{bag}/elsewhere", &[("went", "lost"), ("seeds", "1")]),
    ("/bags/{id}/close", Agnes, Once, "/bags/{bag}/close", "/bags/{bag}/close", &[("ending", "abandoned"), ("why", "mould")]),
    ("/bags/{id}/reopen", Agnes, Once, "/bags/{closed}", "/bags/{closed}/reopen", &[("rooted", "1")]),
    ("/holders", Agnes, Once, "/holders", "/holders", &[("place", "mat")]),
    ("/holders/{id}", Agnes, Once, "/holders/{holder}", "/holders/{holder}", &[("what", "put in"), ("bag", "{bag}")]),
    ("/undo", Agnes, Once, "", "/undo", &[("save", "{saved}")]),
    ("/entries/{id}/void", Agnes, Once, "/entries/{entry}/void", "/entries/{entry}/void", &[("why", "a slip")]),
    ("/labels/sheets/new", Agnes, Once, SHEET, "/labels/sheets/new", &[("name", "{name}")]),
    ("/labels/sheets/{id}", Agnes, Once, "/labels/sheets/{sheet}", "/labels/sheets/{sheet}", &[("nudge_x", "1")]),
    ("/labels/sheets/{id}/remove", Agnes, Once, "/labels/sheets/{sheet}", "/labels/sheets/{sheet}/remove", &[]),
    ("/cards", Agnes, Once, "/cards", "/cards", &[]),
    ("/cards/{id}", Agnes, Once, "/cards/{card}", "/cards/{card}", &[("date-1", "2026-03-02"), ("rooted-1-1", "0"), ("+again-1-1", "yes")]),
    ("/plan/season", Agnes, Once, "/plan/season?plan=", "/plan/season", &[("name", "{name}"), ("routine", "{water}")]),
    ("/plan/lines", Agnes, Once, "/plan/lines?plan={plan}", "/plan/lines", &[("list", "Fenside Lantern, 9, 2026-06-01")]),
    ("/plan/accept", Agnes, Once, "", "/plan/accept", &[("plan", "{plan}"), ("line", "{line}"), ("seeds_{line}", "1"), ("start_{line}", "2026-04-01")]),
    ("/plan/lines/{id}", Agnes, Once, "/plan/lines/{line}", "/plan/lines/{line}", &[("plants", "24")]),
    ("/plan/lines/{id}/accept", Agnes, Once, "/plan/lines/{line}", "/plan/lines/{line}/accept", &[("seeds", "1")]),
    ("/plan/lines/{id}/withdraw", Agnes, Once, "/plan/lines/{accepted}", "/plan/lines/{accepted}/withdraw", &[]),
    ("/plan/lines/{id}/delete", Agnes, Once, "/plan/lines/{line}", "/plan/lines/{line}/delete", &[]),
    ("/rings/new", Agnes, Once, "/rings/new?variety={tested}", "/rings/new", RING),
    ("/rings/{id}/numbers", Agnes, Once, "/rings/{ring}", "/rings/{ring}/numbers", &[("difference", "21")]),
    ("/rings/{id}/draw", Agnes, Once, "/rings/{ring}", "/rings/{ring}/draw", &[]),
    ("/rings/{id}/hand-out", Agnes, Once, "/rings/{drawn}", "/rings/{drawn}/hand-out", &[("to", "all")]),
    ("/rings/{id}/open", Agnes, Once, "/rings/{handed}/open", "/rings/{handed}/open", &[("why", "tired")]),
    ("/rings/{id}/give-up", Agnes, Once, "/rings/{ring}", "/rings/{ring}/give-up", &[]),
    ("/routines/new", Agnes, Once, "/routines/new", "/routines/new", &[("name", "{name}"), ("act_1", "rinse"), ("agent_1", "water"), ("time_1", "5")]),
    ("/routines/{id}/edit", Agnes, Once, "/routines/{routine}/edit", "/routines/{routine}/edit", &[("note", "{name}")]),
    ("/routines/{id}/retire", Agnes, Once, "/routines/{routine}", "/routines/{routine}/retire", &[]),
    ("/mix", Agnes, Once, "", "/mix", MIX),
    ("/packets/new", Agnes, Once, "/packets/new", "/packets/new", PACKET),
    ("/packets/letters", Newcomer, Once, "/packets/letters", "/packets/letters", &[("letters", "{letters}")]),
    ("/packets/{id}/edit", Agnes, Once, "/packets/{packet}/edit", "/packets/{packet}/edit", &[("place", "tin")]),
    ("/packets/{id}/seeds", Agnes, Once, "/packets/{packet}/seeds", "/packets/{packet}/seeds", &[("sort", "spoiled"), ("seeds", "3")]),
    ("/packets/{id}/give", Agnes, Once, "/packets/{packet}/give", "/packets/{packet}/give", &[("to", "{peer}"), ("seeds", "3")]),
    ("/kinds", Agnes, Once, "/kinds", "/kinds", &[("name", "{name}")]),
    ("/kinds/{id}/name", Agnes, Once, "/kinds/{kind}", "/kinds/{kind}/name", &[("name", "{name}")]),
    ("/kinds/{id}/join", Agnes, Once, "/kinds/{kind}", "/kinds/{kind}/join", &[("into", "pepper"), ("sure", "yes")]),
    ("/varieties/{id}/merge", Agnes, Once, "/varieties/{variety}", "/varieties/{variety}/merge", &[("into", "{variety2}")]),
    ("/varieties/{id}/unmerge", Agnes, Once, "/varieties/{merged}", "/varieties/{merged}/unmerge", &[]),
    ("/sources/{id}/merge", Agnes, Once, "/sources/{source}", "/sources/{source}/merge", &[("into", "{source2}")]),
    ("/sources/{id}/unmerge", Agnes, Once, "/sources/{joined}", "/sources/{joined}/unmerge", &[]),
    ("/packets/import", Agnes, Page, "/packets/import", "/packets/import", &[("list", LIST)]),
    ("/packets/import/confirm", Agnes, Once, ">/packets/import", "/packets/import/confirm", &[("list", LIST)]),
    ("/counts/import", Agnes, Page, "/counts/import", "/counts/import", &[("list", COUNTS)]),
    ("/counts/import/confirm", Agnes, Once, ">/counts/import", "/counts/import/confirm", &[("list", COUNTS)]),
    ("/clubs/{code}/use", Agnes, Once, "/clubs", "/clubs/{club}/use", &[]),
    ("/clubs/{code}/remove", Agnes, Once, "/clubs", "/clubs/{club}/remove", &[("sure", "yes")]),
    ("/trays/new", Agnes, Once, "/trays/new", "/trays/new", &[]),
    ("/trays/{id}/place", Agnes, Once, "/trays/{tray}", "/trays/{tray}/place", &[("place", "sill")]),
    ("/trays/{id}/finish", Agnes, Once, "/trays/{tray}", "/trays/{tray}/finish", &[]),
    ("/trays/{id}/reopen", Agnes, Once, "/trays/{finished}", "/trays/{finished}/reopen", &[]),
    ("/trays/{id}/outcomes", Agnes, Once, "/trays/{planted}/outcomes", "/trays/{planted}/outcomes", &[("sort", "up"), ("planting", "{planting}")]),
    ("/bags/{id}/plant", Agnes, Once, "/bags/{looked}/plant?tray={tray}", "/bags/{looked}/plant", &[("tray", "{tray}"), ("seeds", "2")]),
    ("/plantings/{id}/outcomes", Agnes, Once, "/plantings/{planting}", "/plantings/{planting}/outcomes", &[("up", "1")]),
    ("/plantings/{id}/end", Agnes, Once, "/plantings/{planting}", "/plantings/{planting}/end", &[("end_why", "given away")]),
    ("/trials/new", Agnes, Once, "/trials/new?packet={packet}&routine={water}", "/trials/new", &[("seeds_{packet}", "4")]),
    ("/trials/{id}/step", Agnes, Once, "/trials/{wet}", "/trials/{wet}/step", &[]),
    ("/trials/{id}/note", Agnes, Once, "/trials/{wet}", "/trials/{wet}/note", &[("text", "cloudy")]),
    ("/trials/{id}/tally", Agnes, Once, "/trials/{wet}/tally", "/trials/{wet}/tally", &[("sank", "8"), ("floated", "2"), ("floaters", "thrown out")]),
    ("/trials/{id}/paper", Agnes, Once, "/trials/{dry}/paper", "/trials/{dry}/paper", &[("seeds_1", "10")]),
    ("/trials/{id}/seeds", Agnes, Once, "/trials/{dry}/seeds", "/trials/{dry}/seeds", &[("seeds", "2"), ("sort", "lost")]),
];

pub fn all() -> impl Iterator<Item = Post> {
    TABLE.iter().map(|(route, by, leads, page, action, fields)| Post {
        route,
        by: *by,
        leads: *leads,
        page,
        action,
        fields,
    })
}
