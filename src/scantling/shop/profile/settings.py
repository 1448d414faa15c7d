"""Every setting of a shop profile, by chapters: what the file says, and what holds where it says nothing."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from pydantic import BaseModel

from scantling.joinery.work import ConnectorKind
from scantling.reading import Path
from scantling.reading.setting import (
    Setting,
    SettingKind,
    WrittenFile,
    held_by,
    is_setting,
    section_in,
    section_words,
    setting_of,
)
from scantling.shop.profile.clamps import Clamp
from scantling.shop.profile.glues import Glue, shipped_glues
from scantling.shop.profile.labels import label_of_field
from scantling.shop.profile.machines import USUAL_MACHINES, Machines
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.rates import SheetPrice, TimberPrice
from scantling.shop.profile.surfacing import Abrasive, FinishProduct, shipped_abrasives, shipped_finishes
from scantling.shop.profile.yard import SoldSheet

__all__ = ["CUTTERS", "LISTS", "Adding", "Chapter", "Section", "shop_chapters"]

CUTTERS = frozenset(
    {
        ("drill_press", "bits"),
        ("mortiser", "chisels"),
        ("router", "bits"),
        ("loose_tenon_cutter", "cutters"),
        ("table_saw", "stacked_cutter"),
    }
)
"""Settings of machines that are told with the cutters."""
LISTS: Mapping[Path, type[BaseModel]] = {
    ("clamps",): Clamp,
    ("glues",): Glue,
    ("finishes",): FinishProduct,
    ("abrasives",): Abrasive,
    ("rates", "timber"): TimberPrice,
    ("rates", "sheets"): SheetPrice,
    ("yard", "sheets"): SoldSheet,
}
"""Lists of a profile, and what an entry of each is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Settings that belong together.

    Parameters
    ----------
    path
        Of the block or entry; empty for settings at the head of the file.
    owned
        Of a machine: whether the shop has one; else None.
    entry
        Whether it is an entry of a list, which may be taken out.
    own
        Whether it is written in the file itself.
    """

    path: Path
    label: str
    about: str
    owned: bool | None = None
    entry: bool = False
    own: bool = False
    settings: tuple[Setting, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Adding:
    """A list that takes another entry.

    Parameters
    ----------
    named
        What the entry is called by, where it stands under a name; else empty.
    known
        Names that are there without being written, such as glues that come with the program.
    """

    path: Path
    label: str
    about: str
    named: str
    known: tuple[str, ...]
    settings: tuple[Setting, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """A chapter of the profile."""

    name: str
    title: str
    about: str
    sections: tuple[Section, ...]
    adding: tuple[Adding, ...] = ()


def _leaves(
    file: WrittenFile,
    model: type[BaseModel],
    at: Path,
    defaults: BaseModel | None,
    *,
    but: frozenset[str] = frozenset(),
) -> tuple[Setting, ...]:
    """The settings of one section, without those in sections of its own."""
    section = next((step for step in reversed(at) if isinstance(step, str)), "")
    found = []
    for name, info in model.model_fields.items():
        key = info.alias or name
        if not is_setting(info) or key in but:
            continue
        default = (
            getattr(defaults, name)
            if defaults is not None
            else ...
            if info.is_required()
            else info.get_default(call_default_factory=True)
        )
        label = label_of_field(key, section)
        found.append(setting_of(name, info, at, file=file, label=label, default=default))
    return tuple(found)


def shop_chapters(text: str) -> tuple[Chapter, ...]:
    """The settings of a profile that can be read.

    Parameters
    ----------
    text
        The file.

    Raises
    ------
    FileFaults
        What keeps it from being read at all; see :func:`scantling.shop.profile.profile_file.parse_shop`
        for the rest.

    Examples
    --------
    >>> machines = shop_chapters("machines: {planer: {max_width: 13 in}}")[1]
    >>> planer = machines.sections[1]
    >>> planer.label, planer.owned, planer.settings[0].written, planer.settings[0].default
    ('Planer', True, '13 in', '330 mm')
    """
    file, usual = WrittenFile.of(text, file="shop"), Shop()
    makers: tuple[tuple[str, str, str, Callable[[WrittenFile, Shop], tuple[Section, ...]]], ...] = (
        ("shop", "The shop", "What it is called, and how its file is read.", _head),
        (
            "machines",
            "Machines",
            "What each can take. Work for a machine that is not here goes to another that can do it, "
            "or to hand tools; a joint that nothing here can cut is told in the plan.",
            _machines,
        ),
        (
            "cutters",
            "Cutters and bits",
            "What is at hand, from small to large, with commas between.",
            _cutters,
        ),
        ("clamps", "Clamps", "What is here, and how they are set.", _clamps),
        ("glue", "Glue", "Glues of your own stand before those that come with the program.", _glue),
        ("finish", "Finish and abrasives", "What surfaces are brought to.", _finish),
        (
            "allowances",
            "Wood left on",
            "What is added to a finished size before it is sawn out.",
            _plain("allowances"),
        ),
        (
            "layout",
            "Laying out boards",
            "What counts beside the price, in money: higher, and the layout does more for it.",
            _plain("layout"),
        ),
        ("rates", "Rates", "What an hour and a board cost. Nothing here is a quotation.", _rates),
        ("yard", "The yard", "What this shop buys, and how boards come.", _yard),
        ("place", "People and place", "Who lifts, where it stands, how dry it is.", _place),
    )
    adding = _adding(file)
    return tuple(
        Chapter(name=name, title=title, about=about, sections=make(file, usual), adding=adding.get(name, ()))
        for name, title, about, make in makers
    )


def _head(file: WrittenFile, usual: Shop) -> tuple[Section, ...]:
    own = _leaves(file, Shop, (), usual, but=frozenset({"glue", "finish"}))
    return (Section(path=(), label="", about="", settings=own),)


def _block(file: WrittenFile, name: str, usual: Shop) -> Section:
    """A section of the file that is always there, at its defaults if nothing is said."""
    model = section_in(Shop.model_fields[name].annotation)
    assert model is not None, "a section"
    settings = _leaves(file, model, (name,), getattr(usual, name))
    return Section(path=(name,), label=label_of_field(name), about=section_words(model), settings=settings)


def _plain(name: str) -> Callable[[WrittenFile, Shop], tuple[Section, ...]]:
    def make(file: WrittenFile, usual: Shop) -> tuple[Section, ...]:
        block = _block(file, name, usual)
        return (Section(path=block.path, label="", about="", settings=block.settings),)

    return make


def _machine_models() -> dict[str, type[BaseModel]]:
    found = {name: section_in(info.annotation) for name, info in Machines.model_fields.items()}
    return {name: model for name, model in found.items() if model is not None}


def _owned(file: WrittenFile, name: str) -> bool:
    if not file.has(("machines",)):
        return getattr(USUAL_MACHINES, name) is not None
    return file.at(("machines", name)) is not None


def _machines(file: WrittenFile, _usual: Shop) -> tuple[Section, ...]:
    sections = []
    for name, model in _machine_models().items():
        owned, cutters = _owned(file, name), frozenset(key for machine, key in CUTTERS if machine == name)
        settings = _leaves(file, model, ("machines", name), None, but=cutters) if owned else ()
        sections.append(
            Section(
                path=("machines", name),
                label=label_of_field(name),
                about=section_words(model),
                owned=owned,
                own=file.has(("machines",)),
                settings=settings,
            )
        )
    return tuple(sections)


def _cutters(file: WrittenFile, _usual: Shop) -> tuple[Section, ...]:
    sections = []
    for name, model in _machine_models().items():
        keys = {key for machine, key in CUTTERS if machine == name}
        if keys and _owned(file, name):
            others = frozenset(info.alias or field for field, info in model.model_fields.items()) - keys
            settings = _leaves(file, model, ("machines", name), None, but=others)
            sections.append(
                Section(path=("machines", name), label=label_of_field(name), about="", settings=settings)
            )
    return tuple(sections)


def _clamps(file: WrittenFile, usual: Shop) -> tuple[Section, ...]:
    block = _block(file, "clamping", usual)
    how = Section(path=block.path, label="How they are set", about=block.about, settings=block.settings)
    return (*_entries(file, ("clamps",), usual.clamps), how)


def _glue(file: WrittenFile, usual: Shop) -> tuple[Section, ...]:
    return (_named(file, "glue", shipped_glues(), usual), *_entries(file, ("glues",), ()))


def _finish(file: WrittenFile, usual: Shop) -> tuple[Section, ...]:
    finishes = _entries(file, ("finishes",), ())
    grits = _entries(file, ("abrasives",), shipped_abrasives())
    return (_named(file, "finish", shipped_finishes(), usual), *finishes, *grits)


def _named(file: WrittenFile, name: str, shipped: Sequence[Glue | FinishProduct], usual: Shop) -> Section:
    """The usual glue or finish, to be chosen among all that are known."""
    block = f"{name}s" if name == "glue" else "finishes"
    listed = file.at((block,))
    own = [one.get("name") for one in listed if isinstance(one, dict)] if isinstance(listed, list) else []
    names = dict.fromkeys([*(str(one) for one in own if one), *(each.name for each in shipped)])
    info = Shop.model_fields[name]
    made = setting_of(name, info, (), file=file, label=label_of_field(name), default=getattr(usual, name))
    chosen = Setting(
        path=made.path,
        label=made.label,
        about=made.about,
        kind=SettingKind.CHOICE,
        default=made.default,
        needed=False,
        written=made.written,
        line=made.line,
        choices=tuple(names),
    )
    return Section(path=(), label="", about="", settings=(chosen,))


def _rates(file: WrittenFile, usual: Shop) -> tuple[Section, ...]:
    block = _block(file, "rates", usual)
    hardware = file.at(("rates", "hardware"))
    priced = tuple(
        Setting(
            path=("rates", "hardware", name),
            label=str(name),
            about="Price each.",
            kind=SettingKind.NUMBER,
            default="",
            needed=True,
            written=file.standing.get(("rates", "hardware", name), (None, 0))[0],
            line=file.standing.get(("rates", "hardware", name), (None, 0))[1],
        )
        for name in (hardware if isinstance(hardware, dict) else ())
    )
    bought = (Section(path=("rates", "hardware"), label="Hardware of your own", about="", settings=priced),)
    return (
        Section(path=block.path, label="", about="", settings=block.settings),
        *_entries(file, ("rates", "timber"), ()),
        *_entries(file, ("rates", "sheets"), ()),
        *(bought if priced else ()),
    )


def _yard(file: WrittenFile, usual: Shop) -> tuple[Section, ...]:
    block = _block(file, "yard", usual)
    model = type(usual.yard.boards)
    boards = Section(
        path=("yard", "boards"),
        label="Boards of the yard",
        about=section_words(model),
        settings=_leaves(file, model, ("yard", "boards"), usual.yard.boards),
    )
    return (
        Section(path=block.path, label="", about="", settings=block.settings),
        boards,
        *_entries(file, ("yard", "sheets"), ()),
    )


def _place(file: WrittenFile, usual: Shop) -> tuple[Section, ...]:
    return tuple(_block(file, name, usual) for name in ("climate", "people", "space", "accuracy"))


def _entries(file: WrittenFile, path: Path, usual: Sequence[BaseModel]) -> tuple[Section, ...]:
    """The entries of a list: those of the file, or those that hold where it has no such list."""
    model, listed = LISTS[path], file.at(path)
    if not listed and not (file.has(path) and path != ("abrasives",)):
        return tuple(_entry(file, (*path, i), type(one), one) for i, one in enumerate(usual))
    keys = range(len(listed)) if isinstance(listed, list) else listed if isinstance(listed, dict) else ()
    return tuple(_entry(file, (*path, key), model, None) for key in keys)


def _entry(file: WrittenFile, path: Path, model: type[BaseModel], default: BaseModel | None) -> Section:
    settings = _leaves(file, model, path, default)
    held = {str(one.path[-1]): held_by(one) for one in settings}
    name = str(path[-1]) if isinstance(path[-1], str) else ""
    words = (
        [name] if name else [held[key] for key in ("name", "kind", "material", "grit") if held.get(key)][:1]
    )
    words += [held[key] for key in ("reach", "thickness") if held.get(key)]
    what = {"abrasives": "grit "}.get(str(path[0]), "")
    label = f"{what}{' '.join(words)}"
    return Section(
        path=path,
        label=label[:1].upper() + label[1:],
        about="",
        entry=True,
        own=default is None,
        settings=settings,
    )


def _adding(file: WrittenFile) -> dict[str, tuple[Adding, ...]]:
    """What may be added, by chapter."""

    def one(path: Path, label: str, about: str = "", *, named: str = "", known: Sequence[str] = ()) -> Adding:
        model = LISTS.get(path)
        fresh = WrittenFile(data={}, standing={}, inch=file.inch)
        settings = () if model is None else _leaves(fresh, model, (), None)
        return Adding(path=path, label=label, about=about, named=named, known=tuple(known), settings=settings)

    price = Setting(
        path=("price",),
        label="Price each",
        about="",
        kind=SettingKind.NUMBER,
        default="",
        needed=True,
        written=None,
        line=0,
    )
    hardware = Adding(
        path=("rates", "hardware"),
        label="A price of hardware",
        about="By its name on the buying list; no other is taken.",
        named="Hardware",
        known=tuple(kind.value for kind in ConnectorKind),
        settings=(price,),
    )
    return {
        "clamps": (one(("clamps",), "Clamps of one kind and length"),),
        "glue": (one(("glues",), "A glue", known=[glue.name for glue in shipped_glues()]),),
        "finish": (
            one(("finishes",), "A finish", known=[finish.name for finish in shipped_finishes()]),
            one(("abrasives",), "A grit"),
        ),
        "rates": (
            one(
                ("rates", "timber"),
                "A price of timber",
                "By the board foot or by the cubic meter.",
                named="Wood",
            ),
            one(("rates", "sheets"), "A price of sheet material"),
            hardware,
        ),
        "yard": (one(("yard", "sheets"), "A size of sheet the yard sells"),),
    }
