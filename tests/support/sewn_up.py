"""Sews a list of steps up by its own words: whatever order of the work its "after step" lines allow must do."""


def behind(steps):
    """By step number, every earlier step it needs, directly or not."""
    found = {}
    for step in steps:
        found[step.step] = set(step.needs).union(*(found[need] for need in step.needs))
    return found


def loose(steps):
    """Places where a maker who keeps to the steps' own "after" lines could still come to a closed or missing edge."""
    before = behind(steps)
    touch = [(step, edge) for step in steps for edge in (*step.edges, *step.begins)]
    closed_by = {edge: step for step in steps for edge in step.edges}
    found = []
    for step in steps:
        for other, edge in touch:
            if edge in step.free and other is not step and step.step not in before[other.step]:
                found.append(f"step {other.step} may touch {edge} before step {step.step} needs it open")
        for edge in step.closed:
            if closed_by[edge].step not in before[step.step]:
                found.append(f"step {step.step} may come before {edge} is sewn")
    return found
