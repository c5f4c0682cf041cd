"""What makes a design unfit to be lowered, each kind of thing told once."""

from ..findings import Finding
from ..text import translate
from ..tin import Tin
from ..tin.health import MOST_OF_A_KIND, examine
from ..tolerance import Tolerance


def faults_of_design(tin: Tin, tolerance: Tolerance) -> list[Finding]:
    """Return one finding for each kind of fault, with its number and its first place.

    Only what can be told fast is looked for: ``overlap`` faces over one another, so that there
    is no single height to go down from; ``crack`` faces that touch without being joined, so that
    the result gapes there too.
    """
    sentences = {
        "overlap": translate(
            "Core",
            "The design has {count} pairs of faces that lie over one another in plan, the first near {x:.3f}, {y:.3f}: depths and volumes are wrong there; repair the design first.",
        ),
        "crack": translate(
            "Core",
            "The design has {count} cracks, where a corner lies on the side of a face without being joined to it, the first near {x:.3f}, {y:.3f}: the result gapes there too; repair the design first.",
        ),
    }
    # What the checks work out is of no use later: let it go with a surface of their own.
    own = Tin(tin.vertices, tin.faces)
    vars(own)["edges"] = tin.edges
    found = examine(own, tolerance, sentences)
    faults = []
    for code, sentence in sentences.items():
        some = [finding for finding in found if finding.code == code]
        if some:
            count = len(some) if len(some) <= MOST_OF_A_KIND else f"{MOST_OF_A_KIND}+"
            x, y = some[0].place or (0.0, 0.0)
            faults.append(Finding(code, sentence.format(count=count, x=x, y=y), some[0].place))
    return faults
