use crate::accounts::{PASSWORD, does_not_work, set_up, sign_in};
use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;

const OTHER: &str = "eleven quiet herons walking";

/// The path of the link that a page shows.
#[track_caller]
fn link(page: &Page) -> String {
    page.says("It is shown only now");
    let shown = page.all("#link").remove(0);
    shown.strip_prefix("http://127.0.0.1:8420").unwrap().to_owned()
}

async fn invitation(organiser: &Browser, role: &str) -> String {
    let page = organiser.get("/members").await;
    link(&organiser.submit(&page, "/members/invite", &[("role", role)]).await)
}

fn fields<'a>(sign_in: &'a str, letters: &'a str) -> [(&'a str, &'a str); 4] {
    [("name", sign_in), ("sign_in", sign_in), ("letters", letters), ("password", PASSWORD)]
}

async fn join(club: &Club, organiser: &Browser, sign_in: &str, letters: &str) -> Browser {
    let path = invitation(organiser, "grower").await;
    let browser = club.stranger();
    let page = browser.get(&path).await;
    assert_eq!(browser.submit(&page, "", &fields(sign_in, letters)).await.path, "/");
    browser
}

/// The page that an organiser has of a member.
async fn page_of(organiser: &Browser, name: &str) -> Page {
    let list = organiser.get("/members").await;
    organiser.get(&list.link(name)).await
}

#[tokio::test]
async fn an_invitation_lets_one_person_in() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let path = invitation(&ines, "grower").await;
    ines.get("/members").await.says("Invitation as grower, made by Ines Brandt works until Mon 9 Mar 09:00");
    let jo = club.stranger();
    let page = jo.get(&path).await;
    page.says("Moorland Growers invites you as a grower");
    for (name, value, error) in [
        ("name", "", "Please fill this in"),
        ("sign_in", "INES", "Somebody has this sign-in name"),
        ("letters", "1B", "1 to 4 letters"),
        ("letters", "ABCDEFGHIJ", "1 to 4 letters"),
        ("letters", "lB", "look like some that are taken"),
        ("password", "fourteen chars", "this has 14"),
        ("password", "123456789012345", "first that others would try"),
        ("password", "moorland growers", "mostly a name"),
    ] {
        let mut typed = fields("Jo Bell", "JB");
        typed.iter_mut().find(|(n, _)| *n == name).unwrap().1 = value;
        let again = jo.submit(&page, "", &typed).await;
        again.refuses(name, error);
        assert!(name != "name" || again.text().contains("Your name: Please fill this in."));
        assert!(name == "name" || again.body.contains("Jo Bell"), "what was typed stays");
    }
    assert_eq!(jo.submit(&page, "", &fields("Jo Bell", "JB")).await.path, "/");
    jo.get("/members").await.says("Jo Bell").says_not("Invite somebody").says_not("Open links");
    assert!(jo.get("/me").await.text().contains("JB. Every mark of yours"));
    does_not_work(&club.stranger().get(&path).await);
    does_not_work(&club.stranger().post(&path, &fields("Kim", "KL")).await);
    ines.get("/members").await.says_not("Invitation as");
}

#[tokio::test]
async fn an_organiser_can_invite_another() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let path = invitation(&ines, "organiser").await;
    let lea = club.stranger();
    let page = lea.get(&path).await;
    page.says("as an organiser");
    lea.submit(&page, "", &fields("Lea", "LM")).await;
    lea.get("/members").await.says("Invite somebody");
    let page = ines.get("/members").await;
    ines.submit(&page, "/members/invite", &[("role", "owner")]).await.refuses("role", "Please choose one");
}

#[tokio::test]
async fn a_link_is_shown_once_with_its_code() {
    let club = Club::new().await;
    let lea = club.organiser("Lea", "LM").await;
    let list = lea.get("/members").await;
    let page = lea.submit(&list, "/members/invite", &[]).await;
    let path = link(&page);
    assert!(path.strip_prefix("/join/").is_some_and(|t| t.len() == 43), "256 bits: {path}");
    assert_eq!(page.headers["cache-control"], "no-store");
    let code = page.html();
    let selector = scraper::Selector::parse("svg.code[role=img]").unwrap();
    let code = code.select(&selector).next().expect("a code");
    let side: i32 = code.value().attr("viewbox").or(code.value().attr("viewBox")).unwrap()[4..]
        .split(' ')
        .next()
        .unwrap()
        .parse()
        .unwrap();
    assert_eq!((side - 8 - 17) % 4, 0, "versions of the standard have 17 + 4 v modules; {side}");
    assert!(code.html().contains(r#"d="M4 4h1v1h-1z"#), "a finder pattern 4 modules from the corner");
    let again = lea.submit(&list, "/members/invite", &[]).await;
    again.says("is not shown twice");
    assert_eq!(again.all("form[action$=withdraw]").len(), 1, "sent twice, made once");
}

#[tokio::test]
async fn an_invitation_ends_by_itself_or_is_withdrawn() {
    let club = Club::new().await;
    let lea = club.organiser("Lea", "LM").await;
    let path = invitation(&lea, "grower").await;
    club.pass_days(7);
    club.pass_minutes(-1);
    club.stranger().get(&path).await.says("Join the club");
    club.pass_minutes(1);
    does_not_work(&club.stranger().get(&path).await);
    does_not_work(&club.stranger().post(&path, &fields("Jo", "JB")).await);

    let lea = club.again(&lea).await;
    let path = invitation(&lea, "grower").await;
    let list = lea.get("/members").await;
    let action = withdrawal(&list);
    lea.submit(&list, &action, &[]).await.says("Withdrawn");
    lea.submit(&list, &action, &[]).await.says("Members");
    does_not_work(&club.stranger().get(&path).await);
    does_not_work(&club.stranger().post(&path, &fields("Jo", "JB")).await);
}

fn withdrawal(list: &Page) -> String {
    let html = list.html();
    let selector = scraper::Selector::parse("form[action$=withdraw]").unwrap();
    html.select(&selector).next().expect("an open link").value().attr("action").unwrap().to_owned()
}

#[tokio::test]
async fn joining_twice_with_one_form_is_joining_once() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    for n in 0..3 {
        let path = invitation(&ines, "grower").await;
        let (one, two) = (club.stranger(), club.stranger());
        let page = one.get(&path).await;
        let (name, letters) = (format!("jo{n}"), ["JA", "JB", "JC"][n]);
        let typed = fields(&name, letters);
        let (a, b) = tokio::join!(one.submit(&page, "", &typed), two.submit(&page, "", &typed));
        assert_eq!((a.path.as_str(), b.path.as_str()), ("/", "/"), "{} / {}", a.text(), b.text());
        two.get("/me").await.says(&name);
        assert_eq!(one.submit(&page, "", &typed).await.path, "/");
        let mut wrong = typed;
        wrong[3] = ("password", OTHER);
        does_not_work(&club.stranger().submit(&page, "", &wrong).await);
    }
    assert_eq!(ines.get("/members").await.all(".list tbody tr").len(), 4);
}

#[tokio::test]
async fn two_people_with_one_invitation_make_one_member() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    for (a, b) in [("ja", "jb"), ("ka", "kb"), ("ma", "mb")] {
        let path = invitation(&ines, "grower").await;
        let (one, two) = (club.stranger(), club.stranger());
        let page = one.get(&path).await;
        let (ta, tb) = (fields(a, a), fields(b, b));
        let (x, y) = tokio::join!(one.submit(&page, "", &ta), two.submit(&page, "", &tb));
        let lost = if x.path == "/" {
            y
        } else {
            assert_eq!(y.path, "/");
            x
        };
        does_not_work(&lost);
    }
    assert_eq!(ines.get("/members").await.all(".list tbody tr").len(), 4);
}

#[tokio::test]
async fn a_reset_link_gives_a_new_password_and_ends_the_sessions() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let jo = join(&club, &ines, "jo", "JB").await;
    let action = page_of(&ines, "jo").await.path + "/reset";
    let old = link(&ines.submit(&page_of(&ines, "jo").await, &action, &[]).await);
    let page = page_of(&ines, "jo").await;
    let path = link(&ines.submit(&page, &action, &[]).await);
    ines.submit(&page, &action, &[]).await.says("is not shown twice");
    does_not_work(&club.stranger().get(&old).await);
    does_not_work(&club.stranger().get(&path.replace("/reset/", "/join/")).await);
    ines.get("/members").await.says("Reset link for jo, made by Ines Brandt works until tomorrow 09:00");

    let phone = club.stranger();
    let page = phone.get(&path).await;
    page.says("For jo.");
    phone.submit(&page, "", &[("password", "short")]).await.refuses("password", "At least 15");
    jo.get("/me").await.says("this is here");
    assert_eq!(phone.submit(&page, "", &[("password", OTHER)]).await.path, "/");
    phone.get("/me").await.says("jo");
    assert_eq!(jo.get("/me").await.path, "/sign-in?next=%2Fme", "the sessions before are over");
    does_not_work(&club.stranger().get(&path).await);
    does_not_work(&phone.submit(&page, "", &[("password", PASSWORD)]).await);
    sign_in(&club, "jo", PASSWORD).await.1.refuses("password", "do not go together");
    assert_eq!(sign_in(&club, "jo", OTHER).await.1.path, "/");
}

#[tokio::test]
async fn a_reset_link_lasts_a_day_and_ends_a_delay() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    join(&club, &ines, "jo", "JB").await;
    let action = page_of(&ines, "jo").await.path + "/reset";
    let path = link(&ines.submit(&page_of(&ines, "jo").await, &action, &[]).await);
    club.pass_minutes(24 * 60 - 1);
    club.stranger().get(&path).await.says("New password");
    club.pass_minutes(1);
    does_not_work(&club.stranger().get(&path).await);
    does_not_work(&club.stranger().post(&path, &[("password", OTHER)]).await);

    for _ in 0..10 {
        sign_in(&club, "jo", "a wrong password").await;
    }
    assert_eq!(sign_in(&club, "jo", PASSWORD).await.1.status, StatusCode::TOO_MANY_REQUESTS);
    let (ines, _) = sign_in(&club, "ines", PASSWORD).await;
    let path = link(&ines.submit(&page_of(&ines, "jo").await, &action, &[]).await);
    let phone = club.stranger();
    phone.submit(&phone.get(&path).await, "", &[("password", OTHER)]).await;
    assert_eq!(sign_in(&club, "jo", OTHER).await.1.path, "/");
}

#[tokio::test]
async fn a_new_role_needs_a_new_sign_in() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let jo = join(&club, &ines, "jo", "JB").await;
    let page = page_of(&ines, "jo").await;
    let action = format!("{}/role", page.path);
    ines.submit(&page, &action, &[]).await.refuses("role", "jo is a grower already");
    ines.submit(&page, &action, &[("role", "king")]).await.refuses("role", "Please choose one");
    ines.submit(&page, &action, &[("role", "organiser")]).await.says("jo is an organiser now");
    ines.submit(&page, &action, &[("role", "organiser")]).await.says("Members");
    assert_eq!(jo.get("/members").await.path, "/sign-in?next=%2Fmembers");
    let (jo, _) = sign_in(&club, "jo", PASSWORD).await;
    jo.get("/members").await.says("Invite somebody");
    let path = invitation(&jo, "grower").await;
    let page = page_of(&ines, "jo").await;
    ines.submit(&page, &action, &[("role", "grower")]).await.says("jo is a grower now");
    does_not_work(&club.stranger().get(&path).await);
    let (jo, _) = sign_in(&club, "jo", PASSWORD).await;
    jo.get("/members").await.says_not("Invite somebody");
}

#[tokio::test]
async fn the_last_organiser_stays_one() {
    let club = Club::new().await;
    let lea = club.organiser("Lea", "LM").await;
    club.grower("Jo", "JB").await;
    let page = page_of(&lea, "Lea").await;
    let (role, leave) = (format!("{}/role", page.path), format!("{}/leave", page.path));
    lea.submit(&page, &role, &[("role", "grower")]).await.refuses("role", "this is the last one");
    lea.submit(&page, &leave, &[("sure", "yes")]).await.refuses("sure", "this is the last one");
    lea.get("/members").await.says("Invite somebody");
}

#[tokio::test]
async fn two_organisers_cannot_both_step_down() {
    for act in ["role", "leave"] {
        for _ in 0..3 {
            let club = Club::new().await;
            let lea = club.organiser("Lea", "LM").await;
            let max = club.organiser("Max", "MN").await;
            let (a, b) = (page_of(&lea, "Lea").await, page_of(&max, "Max").await);
            let (at, bt) = (format!("{}/{act}", a.path), format!("{}/{act}", b.path));
            let fields = [if act == "role" { ("role", "grower") } else { ("sure", "yes") }];
            let (a, b) = tokio::join!(lea.submit(&a, &at, &fields), max.submit(&b, &bt, &fields));
            let refused = [&a, &b].iter().filter(|p| p.text().contains("this is the last one")).count();
            assert_eq!(refused, 1, "{} / {}", a.text(), b.text());
        }
    }
}

#[tokio::test]
async fn who_leaves_is_out_and_their_letters_stay_taken() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let jo = join(&club, &ines, "jo", "JB").await;
    let page = page_of(&ines, "jo").await;
    let reset = format!("{}/reset", page.path);
    let path = link(&ines.submit(&page, &reset, &[]).await);
    let action = format!("{}/leave", page.path);
    ines.submit(&page, &action, &[]).await.refuses("sure", "Please tick this");
    ines.submit(&page, &action, &[("sure", "yes")])
        .await
        .says("jo is no longer a member")
        .says("No longer members");
    ines.submit(&page, &action, &[("sure", "yes")]).await.says("Members");
    assert_eq!(jo.get("/me").await.path, "/sign-in?next=%2Fme");
    sign_in(&club, "jo", PASSWORD).await.1.refuses("password", "do not go together");
    does_not_work(&club.stranger().get(&path).await);
    let gone = ines.get(&page.path).await;
    gone.says("No longer a member");
    for act in ["reset", "role", "leave"] {
        let key = "0123456789abcdef0123456789abcdef";
        let answer = ines.post(&format!("{}/{act}", page.path), &[("key", key), ("role", "grower")]).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{act}");
    }
    let path = invitation(&ines, "grower").await;
    let kim = club.stranger();
    let page = kim.get(&path).await;
    kim.submit(&page, "", &fields("kim", "JB")).await.refuses("letters", "that are taken");
}

#[tokio::test]
async fn growers_cannot_do_what_organisers_do() {
    let club = Club::new().await;
    let lea = club.organiser("Lea", "LM").await;
    let jo = club.grower("Jo", "JB").await;
    let page = page_of(&lea, "Jo").await;
    let seen = jo.get(&page.path).await;
    assert_eq!(seen.status, StatusCode::FORBIDDEN);
    for act in ["reset", "role", "leave"] {
        let fields = [("role", "organiser"), ("sure", "yes"), ("key", "0123456789abcdef")];
        let answer = jo.post(&format!("{}/{act}", page.path), &fields).await;
        assert_eq!(answer.status, StatusCode::FORBIDDEN, "{act}");
    }
    jo.get("/members").await.says("Lea").says_not("Invite");
}

#[tokio::test]
async fn members_change_their_name_measures_and_letters() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    club.grower("Kim", "KL").await;
    let me = jo.get("/me").await;
    jo.submit(&me, "/me", &[("name", "")]).await.refuses("name", "Please fill this in");
    let long = "x".repeat(81);
    jo.submit(&me, "/me", &[("name", &long)]).await.refuses("name", "At most 80");
    jo.submit(&me, "/me", &[("measures", "cubits")]).await.refuses("measures", "Please choose one");
    let saved = jo.submit(&me, "/me", &[("name", "Jo Bell"), ("measures", "us")]).await;
    saved.says("Saved.").says("Jo Bell");
    assert!(saved.body.contains(r#"value="us" checked"#));
    jo.submit(&me, "/me", &[("name", "Jo Bell"), ("measures", "us")]).await.says("Jo Bell");

    club.pass_days(1);
    let me = jo.get("/me").await;
    jo.submit(&me, "/me/letters", &[("letters", "K1")]).await.refuses("letters", "1 to 4 letters");
    jo.submit(&me, "/me/letters", &[("letters", "ki")]).await.refuses("letters", "that are taken");
    jo.submit(&me, "/me/letters", &[("letters", "jc")]).await.says("JC is yours").says("JC, JB. Every mark");
    jo.submit(&me, "/me/letters", &[("letters", "jc")]).await.says("JC, JB. Every mark");
}

#[tokio::test]
async fn a_new_password_needs_the_current_one() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let (phone, _) = sign_in(&club, "ines", PASSWORD).await;
    let me = ines.get("/me").await;
    let change = |current: &'static str, new: &'static str| [("current", current), ("password", new)];
    let wrong = ines.submit(&me, "/me/password", &change("not the current one", OTHER)).await;
    wrong.refuses("current", "not your current password");
    assert!(!wrong.body.contains(OTHER), "passwords do not come back");
    ines.submit(&me, "/me/password", &change(PASSWORD, "short")).await.refuses("password", "At least 15");
    ines.submit(&me, "/me/password", &change(PASSWORD, "ines brandt ines"))
        .await
        .refuses("password", "mostly");
    let before = ines.cookie("hilum");
    ines.submit(&me, "/me/password", &change(PASSWORD, OTHER)).await.says("The new password holds");
    assert_ne!(before, ines.cookie("hilum"), "a new session");
    ines.submit(&me, "/me/password", &change(PASSWORD, OTHER)).await.says("Where you are signed in");
    assert_eq!(phone.get("/me").await.path, "/sign-in?next=%2Fme", "signed out elsewhere");
    assert_eq!(sign_in(&club, "ines", OTHER).await.1.path, "/");
    sign_in(&club, "ines", PASSWORD).await.1.refuses("password", "do not go together");
}

#[tokio::test]
async fn guessing_the_current_password_gets_slow_too() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let me = ines.get("/me").await;
    for _ in 0..10 {
        let fields = [("current", "a wrong password"), ("password", OTHER)];
        ines.submit(&me, "/me/password", &fields).await.refuses("current", "not your current");
    }
    let fields = [("current", PASSWORD), ("password", OTHER)];
    ines.submit(&me, "/me/password", &fields).await.refuses("current", "Wait 5 seconds");
}
