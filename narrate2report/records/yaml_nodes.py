"""The nodes of a YAML text, each with its place."""

from __future__ import annotations

import yaml

if yaml.__with_libyaml__:
    from yaml.composer import Composer
    from yaml.cyaml import CParser  # type: ignore[attr-defined]
    from yaml.resolver import BaseResolver

    class _Quick(Composer, CParser, BaseResolver):
        """Nodes made in Python, where lists within lists end in an error, of events that the C library reads."""

        def __init__(self, text: str) -> None:
            CParser.__init__(self, text)
            Composer.__init__(self)
            BaseResolver.__init__(self)


def nodes_of(text: str, *, quick: bool = False) -> yaml.Node | None:
    """The root of the one document in a text; None where there is none. Raises what `yaml.compose` raises.

    `quick` takes a tenth of the time where PyYAML has its C library. That one takes some texts (a tab at the end of a
    line) that the reader in Python does not, and so is not for what a person wrote.
    """
    if quick and yaml.__with_libyaml__:
        return _Quick(text).get_single_node()
    return yaml.compose(text, Loader=yaml.SafeLoader)
