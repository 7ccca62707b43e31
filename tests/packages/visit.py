#!/usr/bin/env python3
"""A member's browser in few words: keeps cookies and sends the form that it finds in the page.

    visit.py BASE set-up LINK          makes the club, as its first organiser
    visit.py BASE add VARIETY SEEDS    signs in and adds a packet
    visit.py BASE list                 signs in and prints the packets, a line each
    visit.py BASE proxied              signs in through a proxy and says what came of what a proxy must do
    visit.py BASE away                 says where the packets' page sends to

TEST_CA names the file of the authority to trust; every name is this computer. A fault ends it with a word.
"""
import http.client
import os
import re
import socket
import ssl
import sys
from html.parser import HTMLParser
from urllib.parse import urlencode, urljoin, urlsplit

NAME, PASSWORD = "ada", "forty damp lanterns waiting"
# told apart from the proxy, which asks from 127.0.0.1
HERE = "127.0.0.2"


class Forms(HTMLParser):
    """Every form of a page with what a browser would send of it, and the words of the page by table row."""

    def __init__(self, page):
        super().__init__()
        self.forms, self.rows, self.cell, self.area, self.choice = [], [], None, None, None
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        a = dict(attrs)
        if tag == "form":
            self.forms.append({"action": a.get("action"), "fields": {}})
        elif tag == "tr":
            self.rows.append([])
        elif tag in ("td", "th"):
            self.cell = ""
        if not self.forms:
            return
        fields, name = self.forms[-1]["fields"], a.get("name")
        if tag == "select":
            self.choice = name
        elif tag == "option" and self.choice and ("selected" in a or self.choice not in fields):
            fields[self.choice] = a.get("value", "")
        elif tag == "textarea" and name:
            self.area, fields[name] = name, ""
        elif tag == "input" and name and (a.get("type") not in ("checkbox", "radio") or "checked" in a):
            fields[name] = a.get("value", "")

    def handle_endtag(self, tag):
        if tag in ("td", "th") and self.cell is not None:
            if self.rows:
                self.rows[-1].append(" ".join(self.cell.split()))
            self.cell = None
        elif tag == "select":
            self.choice = None
        elif tag == "textarea":
            self.area = None

    def handle_data(self, data):
        if self.cell is not None:
            self.cell += data
        if self.area:
            self.forms[-1]["fields"][self.area] += data

    def with_field(self, name):
        for form in self.forms:
            if name in form["fields"]:
                return form
        sys.exit(f"the page has no form with the field {name}")


class Visitor:
    def __init__(self, base):
        self.base, self.cookies, self.said = base, {}, []
        self.spoof = {}

    def ask(self, method, url, body=None, kind="application/x-www-form-urlencoded"):
        parts = urlsplit(urljoin(self.base, url))
        if parts.scheme == "https":
            context = ssl.create_default_context(cafile=os.environ["TEST_CA"])
            link = http.client.HTTPSConnection(parts.hostname, parts.port, context=context, source_address=(HERE, 0))
        else:
            link = http.client.HTTPConnection(parts.hostname, parts.port, source_address=(HERE, 0))
        headers = {"Cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items()), **self.spoof}
        if body is not None:
            headers |= {"Content-Type": kind, "Origin": self.base}
        link.request(method, (parts.path or "/") + (f"?{parts.query}" if parts.query else ""), body, headers)
        answer = link.getresponse()
        page = answer.read().decode("utf-8", "replace")
        for line in answer.headers.get_all("Set-Cookie", []):
            name, value = line.split(";")[0].split("=", 1)
            self.cookies[name] = value
        self.said = answer.headers.items()
        return answer.status, answer.headers.get("Location"), page

    def page(self, url):
        status, to, page = self.ask("GET", url)
        if status != 200:
            sys.exit(f"GET {url}: {status} {to or ''}")
        return Forms(page)

    def send(self, url, **typed):
        form = self.page(url).with_field(next(iter(typed)))
        body = urlencode(form["fields"] | typed)
        status, to, page = self.ask("POST", form["action"] or url, body)
        if status != 303:
            faults = re.findall(r'class="error"[^>]*>([^<]+)', page) or re.findall(r"<p>([^<]+)", page)
            sys.exit(f"POST {url}: {status} {faults}")
        return to

    def sign_in(self):
        self.send("/sign-in", sign_in=NAME, password=PASSWORD)
        self.page("/")


def set_up(visitor, link):
    path = urlsplit(link).path
    visitor.send(path, club="Growing club of the package", time_zone="Europe/Berlin", name="Ada", sign_in=NAME,
                 letters="AD", password=PASSWORD)
    visitor.page("/")
    print("set up")


def add(visitor, variety, seeds):
    visitor.sign_in()
    to = visitor.send("/packets/new", kind="pepper", variety=variety, source="Own seed", seeds=seeds)
    print(to)


def packets(visitor):
    visitor.sign_in()
    for row in visitor.page("/packets").rows[1:]:
        print(" | ".join(row))


def proxied(visitor):
    visitor.spoof = {"X-Forwarded-For": "203.0.113.9", "Forwarded": "for=203.0.113.9"}
    visitor.sign_in()
    kept = [name for name in visitor.cookies if name.startswith("__Host-")]
    print("cookies bound to the host:", len(kept))
    print("told to come by https alone:", sum(k.lower() == "strict-transport-security" for k, _ in visitor.said))
    large = "--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.csv\"\r\n\r\n" + "a,b\r\n" * 2_000_000
    status, _, _ = visitor.ask("POST", "/packets/import", large + "\r\n--x--\r\n", "multipart/form-data; boundary=x")
    print("a file of 10 million bytes reaches the program:", status)


def away(visitor):
    status, to, _ = visitor.ask("GET", "/packets")
    print(status, to)


def main():
    found = socket.getaddrinfo
    socket.getaddrinfo = lambda host, *rest, **more: found("127.0.0.1", *rest, **more)
    base, what, *rest = sys.argv[1:]
    {"set-up": set_up, "add": add, "list": packets, "proxied": proxied, "away": away}[what](Visitor(base), *rest)


main()
