"""The guide's pages on sewing: what the checks say, the steps with their drawings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from galloon.drawing import Paper, RecordingCanvas, wrap
from galloon.findings import Status
from galloon.sewing import Step
from galloon.sheets.guide_flow import (
    BODY,
    SMALL,
    Block,
    beside,
    bullet,
    figure,
    heading,
    lines_block,
    paragraph,
    stack,
    subheading,
    text_width_of,
)
from galloon.sheets.guide_matter import GuideMatter
from galloon.sheets.guide_words import say

_BOX: float = 58.0
_TALLEST: float = 74.0


def findings(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """Findings by weight, what must change first."""
    width = text_width_of(paper)
    yield heading(say("findings"), width, breaks=True)
    for status in (Status.FAIL, Status.WARN, Status.PASS):
        found = matter.ranked(status)
        if found:
            yield subheading(say(f"findings.{status.value}"), width)
        size = SMALL if status is Status.PASS else BODY
        for finding in found:
            yield bullet(finding.says, width, size=size, mark="!" if status is Status.FAIL else "•", bold_mark=True)


def steps(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """Every step with its drawing, none cut by the page and the last not left alone on one."""
    width = text_width_of(paper)
    yield heading(say("steps"), width, breaks=True)
    yield paragraph(say("steps.note"), width, size=SMALL)
    blocks = [_step(matter, step, width) for step in matter.steps]
    for place, block in enumerate(blocks):
        yield replace(block, keep=place == len(blocks) - 2)


def _step(matter: GuideMatter, step: Step, width: float) -> Block:
    drawn = bool(step.works or step.spots)
    room = width - (_BOX + 6.0 if drawn else 0.0)
    blocks = [lines_block(wrap(f"{step.step}  {step.title}", 5.4, room), 5.4, bold=True)]
    if step.needs:
        key = "step.after" if len(step.needs) == 1 else "step.after.more"
        blocks.append(paragraph(say(key, needs=", ".join(map(str, step.needs))), room, size=SMALL, space=0.0))
    blocks.append(paragraph(step.do, room, space=1.0))
    blocks += [paragraph(words, room, size=SMALL, space=0.8) for words in _settings(step)]
    text = stack(blocks, space=7.0)
    if not drawn:
        return text
    names = step.pieces
    tall = matter.map.height(names, _BOX, _TALLEST)

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        box = (left, top - tall, left + _BOX, top)
        matter.map.draw(canvas, box, names, sewn=() if step.spots else step.works, spots=step.spots, letters=True)

    return beside(figure(tall, draw), text, _BOX + 6.0, space=8.0)


def _settings(step: Step) -> Iterator[str]:
    if step.stitch:
        key = "step.stitch" if step.stitch.isdigit() else "step.stitch.plain"
        yield say(key, setting=step.setting, stitch=step.stitch)
    seam = []
    if step.seam_class:
        seam.append(say("step.seam", seam=say(f"seam.{step.seam_class[0]}"), number=step.seam_class))
    if step.allowance:
        seam.append(say("step.allowance", allowance=step.allowance))
    if seam:
        yield " ".join(seam)
    if step.trimming:
        yield say("step.trim", trimming=step.trimming)
    if step.pressing:
        yield say("step.press", pressing=step.pressing)
