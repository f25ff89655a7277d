"""Puts the house together: the record, the addresses for programs, the screens, and the doorkeeper before them."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from fastapi import APIRouter, FastAPI, Request
from fastapi.responses import RedirectResponse

from server.api import bench as bench_api
from server.api import photos as photos_api
from server.api import traces as traces_api
from server.api import verdicts, watching
from server.api.app import make_app
from server.api.loopback import from_this_machine
from server.api.request_log import log_requests
from server.pages.audit import route as audit
from server.pages.bench import route as bench
from server.pages.bench import shell
from server.pages.calculators import route as calculators
from server.pages.causes import route as causes
from server.pages.charts import checks, faults
from server.pages.charts import route as charts
from server.pages.claims import route as claims
from server.pages.containment import route as containment
from server.pages.customers import route as customers
from server.pages.decisions import route as decisions
from server.pages.desk import route as desk
from server.pages.dossier import route as dossier
from server.pages.entry import route as entry
from server.pages.frame import assets
from server.pages.frame.doorkeeper import Doorkeeper, with_headers
from server.pages.frame.shop_sign import ShopSign
from server.pages.frame.trouble import trouble_page
from server.pages.frame.visitor import Visitor
from server.pages.frame.waking import Waking
from server.pages.gate import route as gate
from server.pages.history import route as history
from server.pages.holds import route as holds
from server.pages.joint import route as joint
from server.pages.joint_life import route as joint_life
from server.pages.labels import route as labels
from server.pages.lists import route as lists
from server.pages.own import passkeys
from server.pages.own import route as own
from server.pages.papers import concessions, nonconformities
from server.pages.people import route as people
from server.pages.photos import route as photos
from server.pages.procedures import revise
from server.pages.procedures import route as procedures
from server.pages.registers import route as registers
from server.pages.release_day import route as release_day
from server.pages.sign_in import passkey
from server.pages.sign_in import route as sign_in
from server.pages.standing_in import route as standing_in
from server.pages.suspects import route as suspects
from server.pages.tablets import enrol, prove
from server.pages.tablets import route as tablets
from server.pages.traces import route as traces
from server.pages.upkeep import route as upkeep
from server.pages.what_else import known_names
from server.pages.what_else import route as what_else
from server.record.book_of_lines import Record, now_ms
from server.record.files import Files
from server.settings import Settings
from server.upkeep.caretaker import Caretaker
from server.upkeep.clock_state import ClockWatch
from server.upkeep.measures import Measures
from server.upkeep.parts import Watched
from server.work.device_proof import DeviceProofs
from server.work.enrolling import Invitations
from server.work.evidence_files import MOST_BYTES as MOST_EVIDENCE_BYTES
from server.work.judge_new import Judge
from server.work.mailing import mailing
from server.work.passkey_asking import Challenges
from server.work.warming import warm_beside

PROGRAMS = (bench_api.router, verdicts.router, watching.router, traces_api.router, photos_api.router)
LARGER = {
    "/api/traces": traces_api.MOST_BYTES,
    "/traces": traces_api.MOST_BYTES,
    "/api/photos": photos_api.MOST_BYTES,
    "/claims/": MOST_EVIDENCE_BYTES,
    "/desk/decide": MOST_EVIDENCE_BYTES,
    "/registers/certificates": MOST_EVIDENCE_BYTES,
}
SCREENS = (
    assets.router,
    sign_in.router,
    passkey.router,
    bench.router,
    procedures.router,
    revise.router,
    dossier.router,
    release_day.router,
    causes.router,
    claims.router,
    containment.router,
    holds.router,
    joint_life.router,
    what_else.router,
    known_names.router,
    history.router,
    desk.router,
    gate.router,
    suspects.router,
    nonconformities.router,
    concessions.router,
    audit.router,
    charts.router,
    faults.router,
    checks.router,
    entry.router,
    registers.router,
    lists.router,
    people.router,
    customers.router,
    standing_in.router,
    own.router,
    passkeys.router,
    tablets.router,
    upkeep.router,
    enrol.router,
    prove.router,
    calculators.router,
    traces.router,
    photos.router,
    decisions.router,
    joint.router,
    labels.router,
)

home = APIRouter(include_in_schema=False)


@home.get("/")
def to_your_work(request: Request) -> RedirectResponse:
    """Send everybody to the screen their day starts on."""
    visitor: Visitor = request.state.visitor
    if not visitor.signed_in:
        return RedirectResponse("/sign-in", 303)
    starts = {"owner": "/history", "quality lead": "/desk", "office": "/history", "finisher": "/history"}
    return RedirectResponse(starts.get(visitor.role, "/bench"), 303)


def build_app(settings: Settings, record: Record | None = None) -> FastAPI:
    """Build the application; a record handed in stays open when the application ends."""
    opened = record or Record.open(settings.database_url, settings.data_folder)

    judge = Judge(opened)
    caretaker = Caretaker(settings, now_ms)
    letters = mailing(opened, settings, now_ms)

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        warming = warm_beside(opened)
        judge.start()
        caretaker.start()
        if letters:
            letters.start()
        yield
        if letters:
            letters.stop()
        caretaker.stop()
        judge.stop()
        warming.join()
        if record is None:
            opened.close()

    app = make_app(opened, routers=(*PROGRAMS, home, *SCREENS), page=trouble_page, larger=LARGER, lifespan=lifespan)
    app.state.settings = settings
    app.state.shop = ShopSign(opened)
    app.state.bench_build = shell.build
    app.state.judge = judge
    app.state.invitations = Invitations()
    app.state.challenges = Challenges()
    app.state.proofs = DeviceProofs()
    app.state.files = Files(settings.data_folder)
    app.state.caretaker = caretaker
    app.state.watched = Watched(opened, settings, ClockWatch(), lambda: judge.trouble, now_ms)
    app.state.measures = Measures(app.state.watched)
    app.add_middleware(Waking, judge=judge)
    app.add_exception_handler(Exception, with_headers(app.exception_handlers[Exception]))
    app.add_middleware(
        Doorkeeper, record=opened, settings=settings, proofs=app.state.proofs, near=from_this_machine
    )
    log_requests(app, app.state.measures.answered)
    return app
