"""The tables of the club's file that the two pages need; kept by the program's own migrations."""
from django.db import models


class Kept(models.Model):
    class Meta:
        abstract = True
        managed = False


class Member(Kept):
    id = models.TextField(primary_key=True)
    sign_in = models.TextField()

    class Meta(Kept.Meta):
        db_table = "members"


class Kind(Kept):
    id = models.TextField(primary_key=True)
    name = models.TextField()

    class Meta(Kept.Meta):
        db_table = "kinds"


class Variety(Kept):
    id = models.TextField(primary_key=True)
    kind = models.ForeignKey(Kind, models.PROTECT)
    name = models.TextField()

    class Meta(Kept.Meta):
        db_table = "varieties"


class Source(Kept):
    id = models.TextField(primary_key=True)
    name = models.TextField()

    class Meta(Kept.Meta):
        db_table = "sources"


class Lot(Kept):
    id = models.TextField(primary_key=True)
    variety = models.ForeignKey(Variety, models.PROTECT)
    source = models.ForeignKey(Source, models.PROTECT)

    class Meta(Kept.Meta):
        db_table = "lots"


class Packet(Kept):
    id = models.TextField(primary_key=True)
    lot = models.ForeignKey(Lot, models.PROTECT)

    class Meta(Kept.Meta):
        db_table = "packets"


class Trial(Kept):
    id = models.TextField(primary_key=True)
    packet = models.ForeignKey(Packet, models.PROTECT)

    class Meta(Kept.Meta):
        db_table = "trials"


class Bag(Kept):
    id = models.TextField(primary_key=True)
    trial = models.ForeignKey(Trial, models.PROTECT)
    owner = models.ForeignKey(Member, models.PROTECT)
    mark = models.TextField()
    voided = models.BooleanField()
    in_doubt = models.BooleanField()
    seeds = models.BigIntegerField()
    rooted = models.BigIntegerField()
    abnormal = models.BigIntegerField()
    dead = models.BigIntegerField()
    lost = models.BigIntegerField()
    on_paper = models.BigIntegerField()
    looked_at = models.BigIntegerField(null=True)
    closed_at = models.BigIntegerField(null=True)
    version = models.BigIntegerField()

    class Meta(Kept.Meta):
        db_table = "bags"


class Entry(Kept):
    id = models.TextField(primary_key=True)
    act_id = models.TextField()
    save_key = models.TextField()
    what = models.TextField()
    bag = models.ForeignKey(Bag, models.PROTECT)
    by_member = models.ForeignKey(Member, models.PROTECT, db_column="by_member")
    at = models.BigIntegerField()
    recorded_at = models.BigIntegerField()
    note = models.TextField()

    class Meta(Kept.Meta):
        db_table = "entries"


class Look(Kept):
    entry = models.OneToOneField(Entry, models.PROTECT, primary_key=True)
    rooted = models.BigIntegerField()
    abnormal = models.BigIntegerField()
    dead = models.BigIntegerField()

    class Meta(Kept.Meta):
        db_table = "looks"


class Once(Kept):
    key = models.TextField(primary_key=True)
    member = models.ForeignKey(Member, models.PROTECT)
    action = models.TextField()
    digest = models.TextField()
    location = models.TextField()
    at = models.BigIntegerField()

    class Meta(Kept.Meta):
        db_table = "once"
