use super::Page;
use axum::Router;
use axum::body::Body;
use axum::http::header::{
    ACCEPT_LANGUAGE, AUTHORIZATION, CONTENT_TYPE, COOKIE, HOST, LOCATION, ORIGIN, SET_COOKIE,
};
use axum::http::{HeaderValue, Request, Response};
use hilum::db::ids::MemberId;
use http_body_util::BodyExt;
use std::collections::BTreeMap;
use std::sync::Mutex;
use tower::ServiceExt;

/// Keeps cookies, follows redirects, submits the forms it finds.
pub struct Browser {
    router: Router,
    cookies: Mutex<BTreeMap<String, String>>,
    id: Option<MemberId>,
    bearer: Option<String>,
    language: Option<&'static str>,
}

impl Browser {
    pub fn new(router: Router, session: Option<String>, id: Option<MemberId>) -> Self {
        let cookies = session.into_iter().map(|token| ("hilum".to_owned(), token)).collect();
        Self { router, cookies: Mutex::new(cookies), id, bearer: None, language: None }
    }

    /// The member who is signed in here.
    pub fn id(&self) -> &MemberId {
        self.id.as_ref().expect("nobody is signed in")
    }

    /// The value of a cookie that this browser keeps.
    pub fn cookie(&self, name: &str) -> String {
        self.cookies.lock().unwrap().get(name).cloned().unwrap_or_else(|| panic!("no cookie {name}"))
    }

    /// Another browser that has just this cookie.
    pub fn with_cookie(&self, name: &str, value: &str) -> Self {
        let cookies = [(name.to_owned(), value.to_owned())].into();
        Self {
            router: self.router.clone(),
            cookies: Mutex::new(cookies),
            id: self.id.clone(),
            bearer: None,
            language: None,
        }
    }

    /// A program that sends this token with each request.
    pub fn with_bearer(self, token: &str) -> Self {
        Self { bearer: Some(format!("Bearer {token}")), ..self }
    }

    /// Asks for pages in this language.
    pub fn asking_for(self, tag: &'static str) -> Self {
        Self { language: Some(tag), ..self }
    }

    pub async fn get(&self, path: &str) -> Page {
        let request = Request::get(path).header(HOST, "club.test").body(Body::empty()).unwrap();
        self.follow(request, path).await
    }

    /// Fills and submits the form on `page` whose action is `action` ("" for a form without one).
    pub async fn submit(&self, page: &Page, action: &str, fields: &[(&str, &str)]) -> Page {
        let form = page.form(action);
        let target = if form.action.is_empty() { page.path.clone() } else { form.action.clone() };
        let pairs = form.filled(fields);
        if form.method == "get" {
            let query = serde_html_form::to_string(&pairs).unwrap();
            return self.get(&format!("{target}?{query}")).await;
        }
        self.post_pairs(&target, &pairs).await
    }

    /// Fills and submits a form that carries a file, as a browser does.
    pub async fn upload(
        &self,
        page: &Page,
        action: &str,
        fields: &[(&str, &str)],
        (name, bytes): (&str, &[u8]),
    ) -> Page {
        let form = page.form(action);
        let mut body = Vec::new();
        for (field, value) in form.filled(fields).iter().filter(|(field, _)| field != "file") {
            let head = format!("--x\r\nContent-Disposition: form-data; name=\"{field}\"\r\n\r\n{value}\r\n");
            body.extend(head.as_bytes());
        }
        let head = "--x\r\nContent-Disposition: form-data; name=\"file\"; filename=";
        body.extend(format!("{head}\"{name}\"\r\n\r\n").as_bytes());
        body.extend(bytes);
        body.extend(b"\r\n--x--\r\n");
        let request = Request::post(action)
            .header(HOST, "club.test")
            .header(ORIGIN, "http://club.test")
            .header(CONTENT_TYPE, "multipart/form-data; boundary=x")
            .body(Body::from(body))
            .unwrap();
        self.follow(request, action).await
    }

    /// The bytes that a form posts for: a file to keep.
    pub async fn download(&self, page: &Page, action: &str, fields: &[(&str, &str)]) -> Vec<u8> {
        let body = serde_html_form::to_string(page.form(action).filled(fields)).unwrap();
        let request = Request::post(action)
            .header(HOST, "club.test")
            .header(ORIGIN, "http://club.test")
            .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
            .body(Body::from(body))
            .unwrap();
        let response = self.raw(request).await;
        assert!(response.status().is_success(), "{action}: {}", response.status());
        response.into_body().collect().await.unwrap().to_bytes().to_vec()
    }

    /// Posts exactly these fields, whatever any page shows.
    pub async fn post(&self, path: &str, fields: &[(&str, &str)]) -> Page {
        let pairs: Vec<(String, String)> = fields.iter().map(|(n, v)| ((*n).into(), (*v).into())).collect();
        self.post_pairs(path, &pairs).await
    }

    async fn post_pairs(&self, path: &str, pairs: &[(String, String)]) -> Page {
        let body = serde_html_form::to_string(pairs).unwrap();
        let request = Request::post(path)
            .header(HOST, "club.test")
            .header(ORIGIN, "http://club.test")
            .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
            .body(Body::from(body))
            .unwrap();
        self.follow(request, path).await
    }

    /// Sends a request as it is, with this browser's cookies; does not follow redirects.
    pub async fn raw(&self, mut request: Request<Body>) -> Response<Body> {
        let cookies =
            self.cookies.lock().unwrap().iter().map(|(k, v)| format!("{k}={v}")).collect::<Vec<_>>();
        if !cookies.is_empty() {
            request.headers_mut().insert(COOKIE, cookies.join("; ").parse().unwrap());
        }
        if let Some(bearer) = &self.bearer {
            request.headers_mut().insert(AUTHORIZATION, bearer.parse().unwrap());
        }
        if let Some(tag) = self.language {
            request.headers_mut().insert(ACCEPT_LANGUAGE, HeaderValue::from_static(tag));
        }
        let response = self.router.clone().oneshot(request).await.unwrap();
        for cookie in response.headers().get_all(SET_COOKIE) {
            self.keep(cookie.to_str().unwrap());
        }
        response
    }

    async fn follow(&self, request: Request<Body>, path: &str) -> Page {
        let mut response = self.raw(request).await;
        let mut path = path.to_owned();
        for _ in 0..5 {
            let Some(to) = response.headers().get(LOCATION) else { break };
            path = to.to_str().unwrap().to_owned();
            let next = Request::get(&path).header(HOST, "club.test").body(Body::empty());
            let next = next.unwrap_or_else(|_| panic!("sent on to what is no address: {path:?}"));
            response = self.raw(next).await;
        }
        let (parts, body) = response.into_parts();
        let bytes = body.collect().await.unwrap().to_bytes();
        Page::new(path, parts.status, parts.headers, String::from_utf8_lossy(&bytes).into_owned())
    }

    fn keep(&self, cookie: &str) {
        let (name, rest) = cookie.split_once('=').unwrap();
        let value = rest.split(';').next().unwrap_or_default();
        let mut cookies = self.cookies.lock().unwrap();
        if rest.contains("Max-Age=0") {
            cookies.remove(name);
        } else {
            cookies.insert(name.to_owned(), value.to_owned());
        }
    }
}
