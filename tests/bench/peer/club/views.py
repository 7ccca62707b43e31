"""What a capable volunteer would write for the club: the table from the bags' kept sums, and the form of a count."""
import hashlib
import math
import time
import uuid

from django.core.paginator import Paginator
from django.db import IntegrityError, transaction
from django.db.models import Count, F, Sum
from django.http import HttpResponse, HttpResponseBadRequest, HttpResponseForbidden
from django.middleware.csrf import get_token
from django.shortcuts import get_object_or_404, redirect, render

from .models import Bag, Entry, Look, Member, Once

PER_PAGE = 50


def sign_in(request, name):
    """Opens a session; the bench does not measure passwords."""
    request.session["member"] = get_object_or_404(Member, sign_in=name).id
    return HttpResponse(get_token(request))


def signed_in(view):
    def seen(request, *args, **kwargs):
        if "member" not in request.session:
            return HttpResponseForbidden("Sign in.")
        return view(request, *args, **kwargs)

    return seen


def wilson(rooted, seeds):
    """The 95 % interval of Wilson (1927)."""
    if not seeds:
        return (0.0, 1.0)
    z, p = 1.959964, rooted / seeds
    middle = (p + z * z / (2 * seeds)) / (1 + z * z / seeds)
    half = z / (1 + z * z / seeds) * math.sqrt(p * (1 - p) / seeds + z * z / (4 * seeds * seeds))
    return (middle - half, middle + half)


@signed_in
def table(request):
    lot = "trial__packet__lot__"
    cells = (
        Bag.objects.filter(voided=False, in_doubt=False)
        .values(
            variety=F(lot + "variety__name"), source=F(lot + "source__name"), kind=F(lot + "variety__kind__name")
        )
        .annotate(
            all_seeds=Sum("seeds"),
            all_lost=Sum("lost"),
            all_rooted=Sum("rooted"),
            bags=Count("id"),
            trials=Count("trial", distinct=True),
            growers=Count("owner", distinct=True),
        )
        .order_by("variety", "source")
    )
    page = Paginator(cells, PER_PAGE).get_page(request.GET.get("page", 1))
    for cell in page.object_list:
        seeds = cell["all_seeds"] - cell["all_lost"]
        low, high = wilson(cell["all_rooted"], seeds)
        cell.update(known=seeds, rate=100 * cell["all_rooted"] / max(seeds, 1), low=100 * low, high=100 * high)
    return render(request, "table.html", {"page": page})


@signed_in
def bag(request, bag):
    bag = get_object_or_404(Bag, id=bag, owner=request.session["member"])
    entries = Entry.objects.filter(bag=bag).select_related("look").order_by("-at")[:50]
    return render(request, "bag.html", {"bag": bag, "entries": entries, "key": uuid.uuid4().hex})


@signed_in
def count(request, bag):
    found = {name: request.POST.get(name, "0") for name in ("rooted", "abnormal", "dead")}
    key = request.POST.get("key", "")
    if not 16 <= len(key) <= 64 or not all(n.isdigit() for n in found.values()):
        return HttpResponseBadRequest("Give whole numbers.")
    found = {name: int(n) for name, n in found.items()}
    member, where = request.session["member"], f"/bags/{bag}"
    digest = hashlib.sha256(request.body).hexdigest()
    try:
        with transaction.atomic():
            bag = get_object_or_404(Bag, id=bag, owner=member)
            if sum(found.values()) > bag.on_paper or bag.closed_at is not None:
                return HttpResponseBadRequest("There are not so many seeds on paper.")
            now, id = int(time.time()), uuid.uuid4().hex
            Once.objects.create(key=key, member_id=member, action="look", digest=digest, location=where, at=now)
            entry = Entry.objects.create(
                id=id, act_id=id, save_key=key, what="look", bag=bag, by_member_id=member, at=now, recorded_at=now, note=""
            )
            Look.objects.create(entry=entry, **found)
            Bag.objects.filter(id=bag.id).update(
                rooted=F("rooted") + found["rooted"],
                abnormal=F("abnormal") + found["abnormal"],
                dead=F("dead") + found["dead"],
                on_paper=F("on_paper") - sum(found.values()),
                looked_at=now,
                version=F("version") + 1,
            )
    except IntegrityError:
        pass
    return redirect(where)
