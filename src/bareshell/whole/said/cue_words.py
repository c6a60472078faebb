"""The words by which a person says what became of a thing, as data. Common practice, no source."""

from __future__ import annotations

from enum import StrEnum
from typing import Final


class Cue(StrEnum):
    """What is said about a thing."""

    DONE = "done"
    PART = "part"
    STARTED = "started"
    STILL = "still to do"
    UNDONE = "not done"
    OFF = "off"
    DO = "do"
    HELD = "held"
    READ = "read"
    BEGUN = "begun"
    FAILED = "failed"
    LEAK = "leak"
    TORQUED = "torqued"
    SHORT = "short"
    MISSING = "missing"
    WRONG = "wrong"
    DAMAGED = "damaged"
    ARRIVED = "arrived"
    UNLIKE = "unlike"
    CHECKED = "checked"
    TEMP = "temporary"
    GONE = "gone"
    PROPER = "proper"
    STANDING = "standing"
    ALONE = "alone"
    COMPANY = "company"
    BEGAN_AT = "began at"
    ENDED_AT = "ended at"
    LATER = "later"
    MAYBE = "maybe"
    OTHER_CAR = "other car"
    NOTHING = "nothing"


PHRASES_OF: Final = {
    Cue.DONE: """
        done; finished; finished off; finish; finish off; complete; completed; all done;
        sorted; sorted out; fixed; went in; gone in; has gone in; is in; are in; in place; in
        and working; went on; gone on; is on; are on; up and running; wrapped up; polished
        off; buttoned up; ticked off; cracked; nailed; in position; back in; back on; back
        together; all in; in now; on now; plumbed in; wired in; wired up; connected up; hooked
        up; bolted up; all set; squared away; did; popped in; dropped in; slotted in;
        together; up and in; on it is
    """,
    Cue.PART: """
        half done; half finished; part done; partly done; part finished; part way; partway;
        half way; halfway; half in; half on; half fitted; nearly done; nearly finished; nearly
        there; almost done; almost finished; almost there; mostly done; mostly finished; most
        of; got as far as; as far as; worked on; working on; more work on; carried on; carried
        on with; test fitted; test fit; test fitting; cracked on with; got on with; spent;
        some progress; progress on; made progress; good progress; a bit more; bit more; not
        quite; roughed in; dry fitted; dry fit; dry fitting; trial fitted; trial fit; offered
        up; finger tight; loosely; loose fitted; hand tight; hand tightened; nipped up; just
        nipped; just hanging; apart from; all but; except; bar the; part of; half of; half
        the; some of; one of; couple of; a few of; first of; one side; one end; one only; left
        only; right only; left one only; right one only; only one; just the left; just the
        right; only the left; only the right; just the one; started but; under way; underway;
        messed about with; fought with; fiddled with; fighting; wrestling; struggled with;
        tinkered with; faffed with; faffing with; had a go at; had a look at; partially; in
        progress; going in; going on; getting there; gave up on; gave up; still going;
        fettled; fettling
    """,
    Cue.STARTED: """
        started; started on; start on; begun; began; made a start; made a start on; made start
        on; got started; got started on; commenced; broke ground on; kicked off; got going on
    """,
    Cue.STILL: """
        still to do; still to fit; to do; left to do; not started; still needs; still need;
        yet to do; yet to; still wants; still outstanding; outstanding; still to go; to
        finish; still waiting; needs doing; needs finishing; want doing; still loose; needs
        fitting; needs tightening; still needs tightening; unfinished; still to be done; to be
        done
    """,
    Cue.UNDONE: """
        not done; not finished; not fitted; not in; not on; not yet; not started; never got;
        no time; no time for; ran out of time; out of time; ran out of evening; didnt finish;
        didnt get; didnt get to; didnt do; didnt manage; didnt fit; couldnt; couldnt get;
        couldnt finish; couldnt fit; havent; havent done; havent finished; havent touched;
        havent started; hasnt; isnt; isnt done; isnt in; isnt finished; arent; arent in;
        wasnt; wasnt done; werent; wont go; wont fit; never touched; no joy; no luck; no go;
        skipped; put off; postponed; left for; leaving for; left it for; leave for; leaving
        till; left till; leave till; not touched; not attempted; defeated; beat me; beaten by;
        wouldnt go; wouldnt fit; wouldnt; not happening; did not; do not; could not; have not;
        has not; is not; are not; was not; not going; not complete; not completed; nothing
        done; incomplete; never happened; not managed; not manage; never started; not
        actually; never did; would not; will not; not connected; not wired; not torqued; not
        tightened; not bolted; not clipped; not secured; not plumbed
    """,
    Cue.OFF: """
        taken off; took off; came off; come off; coming off; taken out; took out; came out;
        off again; out again; back off; back out; undone; undid; had to undo; removed; remove;
        pulled off; pulled out; stripped out; stripped again; stripped down again; apart
        again; off it came; off they came; off it comes; had to come apart; take it off; have
        to redo; had to redo; needs redoing; unbolted; unscrewed; dismantled; took it off; had
        it off; had it out; whipped off; whipped out; disconnected; unplugged; took apart;
        taken apart; backed off; dropped out again; had to come off; had to come out; had to
        pull; tore out; taken down; unfitted; uninstalled; redo; off the car
    """,
    Cue.HELD: """
        held; holding; holds; held fine; held good; held steady; dry; bone dry; all dry;
        steady; no leaks; no leak; no drips; no weeps; not leaking; not weeping; not a drip;
        no bubbles; no drop; nothing leaked; nothing leaking; didnt leak; didnt drop; not
        dropped; passed; tight; hold good; hold fine; held overnight; still holding; still
        good; within limits; photographed; tested good; tested fine; tested ok; proved;
        proven; in spec; within spec; held pressure; gauge steady; hasnt moved; not moved; not
        budged; spot on; leak free; audited; seen and photographed; lost nothing
    """,
    Cue.READ: """
        reads; reading; read; measured; measures; measure; measuring; showing; shows; came out
        at; comes out at; gauge says; meter says; got; at; checked at; set to; set at; gap;
        gapped
    """,
    Cue.BEGUN: """
        pressure 's on; on test; on hold; hold on; under pressure; pressure on; pumped up;
        pumped up to; pumped to; pressurised; pressurized; pressured up; left overnight;
        leaving overnight; leave overnight; leaving it overnight; left it overnight; leave it
        overnight; left it on; left holding; leaving it on; started the hold; hold started;
        hold begun; began the hold; test started; test begun; put on test; set it going; read
        it tomorrow; read it in the morning; charged to; charged up; put pressure on; pressure
        is on; on pressure
    """,
    Cue.FAILED: """
        failed; fail; fails; didnt hold; did not hold; wont hold; wouldnt hold; not holding;
        doesnt hold; lost pressure; losing pressure; dropped to; dropped from; fell to; down
        to; dropping; gone down; went down; not dry; too high; too low; out of limits; out of
        spec; over limit; under limit; lost it; bled down; no good; open circuit; dead short
    """,
    Cue.LEAK: """
        leak; leaks; leaking; leaked; leaky; weep; weeps; weeping; wept; drip; drips;
        dripping; dripped; damp; wet; seep; seeps; seeping; seeped; sweating; bubbles;
        bubbling; pouring out; fluid everywhere; pissing out; spraying
    """,
    Cue.SHORT: """
        short; short of; short by; too few; not enough; ran out of; run out of; running out
        of; out of; need more; need another; need two more; needs another; one short; two
        short; shy
    """,
    Cue.MISSING: """
        missing; not here; not in the box; cant find; couldnt find; cannot find; can not find;
        cant locate; lost; gone missing; nowhere; no sign of; havent got; dont have; have no;
        not come; not arrived; hasnt come; hasnt arrived; havent come; havent arrived; didnt
        come; didnt arrive; not turned up; hasnt turned up; mislaid; arent here; isnt here;
        not delivered; no sign; still not here; never came; never arrived; where are the;
        didnt turn up; did not turn up; no show; not there; still waiting for; still waiting
        on; waiting for; waiting on
    """,
    Cue.WRONG: """
        wrong; wrong size; wrong thread; wrong part; wrong ones; wrong one; wrong length;
        wrong hand; wrong side; incorrect; doesnt fit; dont fit; do not fit; does not fit; too
        long; too short; too big; too small; too wide; too narrow; too thick; too thin; not
        the right; mis sold; oversize; undersize; not as ordered; sent the wrong; no use
    """,
    Cue.DAMAGED: """
        damaged; is cracked; are cracked; is bent; broken; cracked in; split in; snapped; bent
        in; torn; crushed; arrived broken; dented; chipped; smashed; arrived damaged; came
        damaged; arrived bent; arrived split; came bent; arrived cracked; came cracked; came
        broken; came split; stripped thread; perished; rusty; seized; sheared; scratched;
        knackered; came apart; split
    """,
    Cue.ARRIVED: """
        arrived; came; come; turned up; delivered; landed; here; are here; is here; in the
        post; came in the post; picked up; collected; bought; received; got delivered;
        delivery; has come; have come; showed up; came today; came through; found; found the;
        in stock; in hand; dropped off; got hold of
    """,
    Cue.UNLIKE: """
        unlike; unlike the old; different from; different to; not like; not the same as; not
        the same; doesnt match the old; doesnt match; dont match; looks different; look
        different; differs from
    """,
    Cue.CHECKED: """
        all right; alright; all correct; correct; as ordered; all good; look right; looks
        right; match; matches; matching; checked; spot on; right ones; right one; right parts;
        all there; present and correct; look good; looks good; same as old; same as the old
    """,
    Cue.TEMP: """
        temporary; temporarily; temp; bodge; bodged; bodged up; makeshift; for now;
        lash up; lashed up; lashup; jury rigged; cobbled; stopgap; stop gap; improvised; held
        on with; held with; holding with; tied up with; zip tied; cable tied; wired up with;
        taped up with; for the time being; for the moment; till the proper; until the proper;
        until the right; till the right; till the real; until the real; pro tem; slave bolt;
        slave bolts; dummy; bungeed; borrowed
    """,
    Cue.GONE: """
        gone; is gone; are gone; out now; swapped for; swapped; replaced; replaced with;
        replaced by; changed for; removed; taken out; took out; out; is out; are out; out
        again; cleared; no longer there; got rid of; ditched; binned
    """,
    Cue.PROPER: """
        proper; correct; real; right; permanent; final; genuine; new
    """,
    Cue.STANDING: """
        left on; left up on; left it on; left standing on; left her on; left him on; left the
        car on; back on; down on; up on; now on; sitting on; sits on; sat on; standing on;
        stood on; car on; car is on; cars on; car up on; car back on; car down; car down on;
        lowered; lowered onto; lowered to; dropped onto; dropped back onto; raised; raised on;
        put back on; put on; parked on; rolled onto; moved onto; moved to; car up; left up;
        left down; is on; its on; still on; shes on; back down on; back up on; back down; let
        down; let down onto; set down on; resting on; she is on
    """,
    Cue.ALONE: """
        on my own; alone; solo; by myself; single handed; single handedly; just me; only me;
        on my tod; me only; one man; one person
    """,
    Cue.COMPANY: """
        two of us; both of us; two up; two people; two pairs of hands; with help; had help;
        got help; helped; helping; gave me a hand; lent a hand; gave a hand; a hand from; us
        two; the two of us; came over; came round; lent me a hand; two man; two hander; with a
        helper; pair of us; the pair of us; the helper
    """,
    Cue.BEGAN_AT: """
        started at; start at; began at; got in at; out there at; got going at; got out there
        at
    """,
    Cue.ENDED_AT: """
        stopped at; stopped; finished at; packed up; packed up at; packed in; packed in at;
        knocked off; knocked off at; ended at; called it a night; called it a night at; called
        it a day at; in at; gave up at; home at; done at; done by; to bed at; indoors by;
        locked up at; locked up; downed tools; downed tools at; shut up shop at
    """,
    Cue.LATER: """
        will; 'll; wont be; going to; gonna; next week; next time; next session; next weekend;
        next month; next year; tomorrow; plan to; plan is to; planning; want to; hope to;
        hoping to; should; must; ready for; ready to; about to; todo; dont forget; remember
        to; need to; needs to; have to; has to; got to; ought to; intend; intend to; can now;
        could now; later; then can; saturdays job; for saturday; for sunday; at the weekend;
        this weekend; soon; on order; ordered; to order; must order; shall; wants to; wants;
        wanting; due; expected; will be; next up; is next; are next; up next; next job; before
        the next; in future; next saturday; next sunday; next monday; next wednesday; might;
        to be; tomorrow night; on saturday; on sunday; on monday; on tuesday; on wednesday; on
        thursday; on friday
    """,
    Cue.MAYBE: """
        back on the shelf; on the shelf; on the bench; in the box; back in the box; in its
        box; in a box; in the loft; if; unless; would; could have; would have; may; thought;
        think; thinking; wonder; wondering; wonder if; not sure; unsure; dont know; doubt;
        supposed to; suppose; reckon; reckoned; reckons; thinks; believes; hopes; wonders;
        doubts; claims; says; said; told; looks like; seems; seem; seemed; apparently;
        whether; hopefully; could do with; wish; perhaps; in theory; as if; could do; when
        the; once the; once; assuming; pretend; imagine; should have; had i; i hope; possibly;
        guess; in case; rather than; instead of doing
    """,
    Cue.OTHER_CAR: """
        daily; the van; other car; wifes car; neighbours car; neighbours; daily driver; donor;
        donor car; spares car; parts car; mates car; friends car; the shed; lawnmower; mower;
        the bike; motorbike; the house; kitchen
    """,
    Cue.NOTHING: """
        all told; for leaks; look for leaks; looked for leaks; no trouble; no problem; no
        problems; no bother; no drama; no dramas; no hassle; not bad; not too bad; no issues;
        without trouble; no end; not long; not much; not only; no less; why not; no more than;
        held up; held me up; held us up; short of time; short on time; found out; turned out;
        ran out; no wonder; short evening; short night; short session; lost count; out of the
        way; out of the box; out of sight; cut short; in short; got cold; hold of; one of us;
        first one; without a hitch; no worries; not a problem; wrong way round; wrong way up;
        wrong way; the wrong way round; used up; no need; new line; got back; came back to
    """,
}
"""Every cue with the phrases that say it."""
