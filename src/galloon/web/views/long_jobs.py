"""Jobs that take a while, told step by step as server-sent events and ended when the page stops listening."""

from __future__ import annotations

import asyncio
import json
import threading
from collections.abc import AsyncIterator, Callable
from typing import Any, Final

from starlette.requests import Request
from starlette.responses import JSONResponse, Response, StreamingResponse

from galloon.brief import to_data
from galloon.errors import BadInput, CannotMake
from galloon.export import to_svg
from galloon.sheets import garment_views
from galloon.units import format_length
from galloon.web.answer import why
from galloon.web.plan_drawing import told_plan
from galloon.web.views.common import Refused, answered, desk_of, name_of, words_of
from galloon.web.views.designs import address
from galloon.workflow.reckon import make_garment

#: Longest search asked for from the page, s.
_SECONDS: Final = 60.0
#: Letters of an idea's title that a design is named with, so that a number fits in too.
_TITLE: Final = 74
#: Ideas shown at the most.
_IDEAS: Final = 12
Tell = Callable[[str, Any], None]
Cancelled = Callable[[], bool]


def _streamed(request: Request, job: Callable[[Tell, Cancelled], None]) -> StreamingResponse:
    """Runs ``job`` on a thread of its own; what it tells goes out as events; it is cancelled when nobody listens."""
    loop = asyncio.get_running_loop()
    queue: asyncio.Queue[tuple[str, Any] | None] = asyncio.Queue()
    ended = threading.Event()
    jobs = desk_of(request).jobs.setdefault(name_of(request), [])

    def tell(kind: str, data: Any) -> None:
        loop.call_soon_threadsafe(queue.put_nowait, (kind, data))

    def run() -> None:
        try:
            job(tell, ended.is_set)
        except (BadInput, CannotMake) as error:
            tell("wrong", why(error, words_of(request)))
        finally:
            loop.call_soon_threadsafe(queue.put_nowait, None)

    async def events() -> AsyncIterator[str]:
        jobs.append(ended)
        threading.Thread(target=run, daemon=True).start()
        try:
            while True:
                try:
                    item = await asyncio.wait_for(queue.get(), 1.0)
                except TimeoutError:
                    if await request.is_disconnected():
                        return
                    continue
                if item is None:
                    yield "event: end\ndata: {}\n\n"
                    return
                yield f"event: {item[0]}\ndata: {json.dumps(item[1])}\n\n"
        finally:
            ended.set()
            jobs.remove(ended)

    return StreamingResponse(events(), media_type="text/event-stream", headers={"cache-control": "no-store"})


async def longer(request: Request) -> Response:
    """Searches one cloth's cutting plan further; tells the shortest so far and at the end the plan."""
    from galloon.workflow.plan_cutting import plan_longer

    desk, words = desk_of(request), words_of(request)
    cloth = request.query_params.get("cloth", "")
    design = desk.read(desk.document(name_of(request)).data).design

    def job(tell: Tell, cancelled: Cancelled) -> None:
        def progress(now: Any) -> None:
            share = min(1.0, now.seconds / _SECONDS)
            said = words("cutting.found", length=format_length(now.length, design.units))
            tell("progress", {"share": share, "says": said})

        plan = plan_longer(make_garment(design), cloth, seconds=_SECONDS, progress=progress, cancelled=cancelled)
        tell("plan", told_plan(design.cloths[cloth], plan, design.units, words))

    return _streamed(request, job)


async def look(request: Request) -> Response:
    """Looks for ideas; tells how far it is and at the end the line-up."""
    from galloon.ideas import Wish, find_ideas, stock_of
    from galloon.ideas import words as told

    desk, name, words = desk_of(request), name_of(request), words_of(request)
    brief = desk.read(desk.document(name).data)

    def job(tell: Tell, cancelled: Cancelled) -> None:
        def progress(now: Any) -> None:
            tell("progress", {"share": now.done / max(1, now.count), "says": ""})

        found = find_ideas(stock_of(brief.design), Wish(), progress=progress, cancelled=cancelled).found[:_IDEAS]
        desk.found[name] = [{**to_data(one.design), "title": words.said(one.design.title)} for one in found]
        for number, idea in enumerate(found):
            drawing = garment_views(make_garment(idea.design), words=False, width=120.0, pictures=False)
            parts = (told.cloths_of(idea.design), told.needs_of(idea), told.buy_of(idea))
            says = "; ".join(words.said(one) for one in parts if one)
            use = words.said(told.use_of(idea))
            title = f"{words.said(told.shape_of(idea))}. {use[:1].upper()}{use[1:]}"
            tell("idea", {"number": number, "title": title, "says": says, "drawing": to_svg(drawing.pages[0]).decode()})

    return _streamed(request, job)


@answered
def stop(request: Request, data: dict[str, Any]) -> Response:
    """Ends the long jobs of a design; each still tells what it has found."""
    for job in list(desk_of(request).jobs.get(name_of(request), [])):
        job.set()
    return JSONResponse({})


@answered
def adopt(request: Request, data: dict[str, Any]) -> Response:
    """Begins a design from an idea of the last look."""
    desk = desk_of(request)
    ideas, number = desk.found.get(name_of(request), []), data.get("number")
    if not isinstance(number, int) or not 0 <= number < len(ideas):
        raise Refused(404, "That idea is no longer there; look again.")
    chosen = ideas[number]
    taken, title = set(desk.names()), str(chosen.get("title") or "idea")[:_TITLE].strip()
    name = next(one for one in (title, *(f"{title} {count}" for count in range(2, 999))) if one not in taken)
    desk.start(name, {**chosen, "title": name})
    return JSONResponse({"address": address(name, "table")})
