# What the club holds about a member.

own-what-the-club-holds = What the club holds about you
own-both-need-proof = Both need a fresh proof that it is you.
own-save-it-as-a-file = Save it as a file
own-save-text = Your account, letters, packets, trials, bags, trays, counts, notes, photos, plans, count cards, programs' tokens (not their secrets), where you are signed in, and what is recorded of your acts: a zip file of tables in JSON, with the photos beside them.
own-save-the-file = Save the file
own-erase-it-and-leave = Erase it and leave
own-no-way-back = This ends your membership, and there is no way back.
own-goes = <strong>Goes:</strong> your name, sign-in name, password, passkeys and tokens; your notes and photos; your plans, count cards and own label sheets; the places and names you gave to packets, bags and trays.
own-stays = <strong>Stays, without your name:</strong> what was counted, when, and of which seed, since the club's table and other growers' comparisons rest on it; your letters on marks, since no mark is ever given twice; routines, ring trials and names of varieties and sources that others use, and what others wrote.
own-elsewhere = <strong>Elsewhere:</strong> backups that the host made before still hold it until they are replaced. Counts that wait on your phone are lost: send them first. What you printed is yours to throw away.
own-save-first = Save the file first if you want to keep your notes and photos.
own-yes-erase = Yes, erase what is mine and end my membership
own-erase-and-leave = Erase and leave

# The file beside the tables, line by line.

own-readme-title = What your club's Hilum holds about you.
own-readme-moments = One file for each table, in JSON (RFC 8259). Moments (names that end in _at) are seconds since 1970-01-01 00:00 UTC;
own-readme-yes-and-no = yes and no are 1 and 0. Photos are named after the entry they belong to. Passwords and keys are not in here:
own-readme-secrets = the club keeps them only in a form that nobody can read back.
