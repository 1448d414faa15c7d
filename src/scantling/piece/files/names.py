"""What the names in a piece file stand for: parameters, values, and other parts' sizes, found lazily.

A name is worked out when an expression asks for it, and kept. A name that asks for itself, however
roundabout, is a cycle and is told as the chain.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from scantling.errors import Fault, FileFaults, InputError, ModelError
from scantling.piece.expressions import Expression, ExpressionError, Quantity, evaluate, parse
from scantling.piece.files.bare import figures_alone, units_missing
from scantling.piece.files.spec import ParameterSpec, PieceSpec
from scantling.piece.model import ParameterValue
from scantling.reading import Document, did_you_mean, faults_for
from scantling.units import Dimension, Round, is_in_inches, show_limit, show_number

__all__ = ["DEPENDS", "Names"]

_LIMITS = "Other limits are written in the piece file: least and most of this size."

DEPENDS = "depends_on_fault"
"""Code of a fault that only repeats another one; dropped when all are told."""
SIZES = ("length", "width", "thickness")


class Names:
    """Values by name, each worked out once.

    Parameters
    ----------
    document, spec
        The file, and its shape.
    given
        Values asked for instead of the parameters' defaults, as written.
    size_of
        Works out a part's length, width or thickness. [mm]
    unread
        Names of parameters and values that stand in the file and could not be read: no one is told that
        they are unknown.
    fixed
        Parameters and values that are facts, whatever the file says of them. [mm]
    """

    def __init__(
        self,
        document: Document,
        spec: PieceSpec,
        *,
        given: Mapping[str, str],
        size_of: Callable[[str, str], float],
        unread: frozenset[str] = frozenset(),
        fixed: Mapping[str, float] = MappingProxyType({}),
    ) -> None:
        self._fixed = {name: Quantity(mm, Dimension.LENGTH) for name, mm in fixed.items()}
        self._document, self._spec, self._given, self._size_of = document, spec, given, size_of
        self._known: dict[str, Quantity] = {}
        self._worked: dict[tuple[str, Dimension | None], Quantity] = {}
        self._unread = unread
        self._failed: set[str] = set(unread)
        self._asking: list[str] = []
        self._without_unit: dict[str, Dimension] = {}
        self._written: dict[str, str | float] = {
            **{name: each.default for name, each in spec.parameters.items()},
            **{name: given[name] for name in spec.parameters.keys() & given.keys()},
            **spec.values,
        }
        self.faults: list[Fault] = []
        self.parts: set[str] = set(spec.parts)

    def __call__(self, name: str) -> Quantity:
        """The value of a name.

        Raises
        ------
        InputError
            ``unknown_name``, ``cycle``, or :data:`DEPENDS` when the name's own fault is told already.
        """
        if name in self._known:
            return self._known[name]
        if name in self._failed:
            raise self._depends(name)
        if name in self._asking:
            self._tell_cycle(name)
            raise self._depends(name)
        self._asking.append(name)
        try:
            self._known[name] = self._find(name)
        except RecursionError:
            raise InputError(
                code="chain_too_long", field=name, value=name, rule="must be reached in fewer steps"
            ) from None
        finally:
            self._asking.pop()
        return self._known[name]

    def _tell_cycle(self, name: str) -> None:
        """Keep the fault of a name that asks for itself, once for the whole chain."""
        chain = self._asking[self._asking.index(name) :]
        if self._failed.issuperset(chain):
            return
        self._failed.update(chain)
        self.faults.append(
            self._document.fault(
                self._path(chain[0]),
                code="cycle",
                value=" -> ".join([*chain, name]),
                rule="must not depend on itself",
                remedy="Give one of these a plain size.",
            )
        )

    def _path(self, name: str) -> tuple[str, ...]:
        """Where a name stands in the file."""
        if "." in name:
            return ("parts", name.partition(".")[0])
        return ("parameters" if name in self._spec.parameters else "values", name)

    def check(self, expression: Expression) -> None:
        """Refuse an expression that asks for names there are none of, in any of its branches.

        Raises
        ------
        FileFaults
            ``unknown_name``, one a name, each with its place in the text.
        """
        unknown = sorted((expression.find(name).at, name) for name in expression.names() - self._failed)
        unknown = [(at, name) for at, name in unknown if not self._is_known(name)]
        if unknown:
            raise FileFaults([self._unknown(name, expression) for _, name in unknown])

    def _is_known(self, name: str) -> bool:
        if "." in name:
            part, _, size = name.partition(".")
            return part in self.parts and size in SIZES
        return name in self._spec.parameters or name in self._spec.values or name in self._unread

    def _find(self, name: str) -> Quantity:
        if name in self._fixed:
            return self._fixed[name]
        if "." in name and self._is_known(name):
            part, _, size = name.partition(".")
            return Quantity(self._size_of(part, size), Dimension.LENGTH)
        if name in self._spec.parameters:
            return self._parameter(name, self._spec.parameters[name])
        if name in self._spec.values:
            return self._evaluated(("values", name), self._spec.values[name])
        raise ModelError(f"{name} is asked for and was not checked")

    def _unknown(self, name: str, expression: Expression) -> Fault:
        allowed = [*self._spec.parameters, *self._spec.values, *sorted(self._unread)]
        allowed += [f"{part}.{size}" for part in sorted(self.parts) for size in SIZES]
        return ExpressionError(
            code="unknown_name",
            span=expression.find(name),
            rule="must be a parameter, a value, or a part's length, width or thickness",
            remedy=did_you_mean(name, allowed, otherwise="Add it under values."),
        ).fault

    def worked_out(self, written: str, *, want: Dimension | None = None) -> Quantity:
        """The value of an expression, as written.

        Raises
        ------
        InputError, FileFaults
            What is wrong with its form, its names or its value; :data:`DEPENDS` where the unit of a
            parameter or value is missing, which is told there.
        """
        return self.value_of(parse(written), want=want)

    def value_of(self, expression: Expression, *, want: Dimension | None = None) -> Quantity:
        """As :meth:`worked_out`, of an expression that is parsed; worked out once."""
        asked = (expression.root.span.text, want)
        if asked not in self._worked:
            self._worked[asked] = self._value_of(expression, want)
        return self._worked[asked]

    def _value_of(self, expression: Expression, want: Dimension | None) -> Quantity:
        self.check(expression)
        try:
            return evaluate(expression, self, default_unit=self._spec.units, want=want)
        except ExpressionError as error:
            if error.code == "wrong_dimension" and self._blamed(expression, want):
                raise self._depends(expression.root.span.text) from error
            raise

    def _blamed(self, expression: Expression, want: Dimension | None) -> bool:
        """Tell names whose missing unit is why an expression cannot be worked out, if there are any."""
        missing = units_missing(
            expression,
            written=self._written,
            known=self,
            unit=self._spec.units,
            want=want,
            blamed=self._without_unit,
        )
        text = " ".join(expression.root.span.text.split())
        for name, size in missing.items():
            used = f"used as {'an' if size is Dimension.ANGLE else 'a'} {size.value}"
            self._tell_unit(name, size, used=used if text == name else f"{used} in {text}")
        return bool(missing)

    def _tell_unit(self, name: str, size: Dimension, *, used: str) -> None:
        """Keep the fault of a name without a unit, once."""
        if name in self._without_unit:
            return
        self._without_unit[name] = size
        unit = "deg" if size is Dimension.ANGLE else self._spec.units
        spec = self._spec.parameters.get(name)
        path = ("values", name) if spec is None else ("parameters", name, "default")
        limits = [] if spec is None else [(which, getattr(spec, which)) for which in ("least", "most")]
        more = [f"{which}: {limit} {unit}" for which, limit in limits if figures_alone(limit) is not None]
        value = str(self._written[name])
        self.faults.append(
            self._document.fault(
                path,
                code="unit_missing",
                rule=f"must have a unit, for it is {used}",
                value=value,
                remedy=f"Write {value} {unit}{''.join(f', {each}' for each in more)}.",
            )
        )

    def _evaluated(
        self, path: tuple[str, ...], written: str | float, *, want: Dimension | None = None
    ) -> Quantity:
        """An expression's value; a fault of its own is kept once, at its own place."""
        try:
            text = written if isinstance(written, str) else repr(written)
            return self.worked_out(text, want=want)
        except (InputError, FileFaults) as error:
            if not _is_knock_on(error):
                self.faults.extend(faults_for(self._document, path, error))
            self._failed.add(path[1])
            raise self._depends(path[1]) from error

    def _depends(self, name: str) -> InputError:
        return InputError(code=DEPENDS, field=name, value=name, rule="depends on a name that has a fault")

    def _parameter(self, name: str, spec: ParameterSpec) -> Quantity:
        default = self._evaluated(("parameters", name, "default"), spec.default)
        if name not in self._given:
            return default
        written = self._given[name]
        try:
            value = self.worked_out(written, want=default.dimension)
            self._check_range(name, value)
        except (InputError, FileFaults) as error:
            if not _is_knock_on(error):
                self.faults.extend(_of_option(error, name, written))
            self._failed.add(name)
            raise self._depends(name) from error
        return value

    def _check_range(self, name: str, value: Quantity) -> None:
        least, most = (self._limit(name, which, value.dimension) for which in ("least", "most"))
        below = least is not None and value.value < least - 1e-9
        above = most is not None and value.value > most + 1e-9
        if below or above:
            spec = self._spec.parameters[name]
            written = str(self._given.get(name, spec.default))
            raise InputError(
                code="out_of_range",
                field=name,
                value=written,
                rule=self._range(least, most, value.dimension, written=written),
                remedy=f"{spec.about} {_LIMITS}".strip(),
            )

    def _range(self, least: float | None, most: float | None, dimension: Dimension, *, written: str) -> str:
        """What a parameter may be, in the unit its value is written in."""
        inch = is_in_inches(written, otherwise=self._spec.units == "in")
        unit = " deg" if dimension is Dimension.ANGLE else ""

        def told(value: float, direction: Round) -> str:
            if dimension is Dimension.LENGTH:
                return show_limit(value, inch=inch, direction=direction)
            return f"{show_number(value, digits=6)}{unit}"

        low = "" if least is None else told(least, Round.UP)
        high = "" if most is None else told(most, Round.DOWN)
        if low and high:
            return f"must be {low} to {high}"
        return f"must be at least {low}" if low else f"must be at most {high}"

    def _limit(self, name: str, which: str, dimension: Dimension) -> float | None:
        """A limit of a parameter: a bare number is in the unit of what it limits."""
        written = getattr(self._spec.parameters[name], which)
        if written is None:
            return None
        path = ("parameters", name, which)
        if dimension is Dimension.NUMBER and figures_alone(self._written[name]) is not None:
            size = self._evaluated(path, written).dimension
            if size is not Dimension.NUMBER:
                self._tell_unit(name, size, used=f"compared with {written}")
                raise self._depends(name)
        return self._evaluated(path, written, want=dimension).value

    def settle(self) -> tuple[ParameterValue, ...]:
        """Work out every parameter and value, keep all their faults, and list the parameters.

        Raises
        ------
        FileFaults
            ``unknown_parameter`` and everything wrong with a parameter or value.
        """
        for name in self._given:
            if name not in self._spec.parameters and name not in self._unread:
                self.faults.append(
                    Fault(
                        code="unknown_parameter",
                        field=name,
                        value=self._given[name],
                        rule="must be a parameter of the piece",
                        remedy=did_you_mean(
                            name, self._spec.parameters, otherwise="See parameters in the file."
                        ),
                    )
                )
        listed: list[ParameterValue] = []
        for name in self._spec.parameters:
            listed.extend(self._listed(name))
        for name in self._spec.values:
            self._tried(name)
        return tuple(listed)

    def lengths_mm(self) -> dict[str, float]:
        """Parameters and values that are lengths, once they are settled. [mm]"""
        named = [*self._spec.parameters, *self._spec.values]
        found = {name: self._known[name] for name in named if name in self._known}
        return {name: q.value for name, q in found.items() if q.dimension is Dimension.LENGTH}

    def _tried(self, name: str) -> Quantity | None:
        try:
            return self(name)
        except InputError as error:
            if error.code != DEPENDS:
                where = "parameters" if name in self._spec.parameters else "values"
                self.faults.extend(faults_for(self._document, (where, name), error))
                self._failed.add(name)
            return None

    def _listed(self, name: str) -> list[ParameterValue]:
        spec = self._spec.parameters[name]
        value = self._tried(name)
        if value is None:
            return []
        try:
            if name not in self._given and name not in self._fixed:
                self._check_range(name, value)
            return [
                ParameterValue(
                    name=name,
                    about=spec.about,
                    dimension=value.dimension.value,
                    value=value.value,
                    default=self._evaluated(("parameters", name, "default"), spec.default).value,
                    least=self._limit(name, "least", value.dimension),
                    most=self._limit(name, "most", value.dimension),
                )
            ]
        except (InputError, FileFaults) as error:
            if not _is_knock_on(error):
                self.faults.extend(faults_for(self._document, ("parameters", name, "default"), error))
            return []


def _is_knock_on(error: InputError | FileFaults) -> bool:
    """Whether it only says that something else is wrong, which is told at its own place."""
    return isinstance(error, InputError) and error.code == DEPENDS


def _of_option(error: InputError | FileFaults, name: str, written: str) -> list[Fault]:
    """The faults of a value given beside the file (on the command line, in the page)."""
    faults = error.faults if isinstance(error, FileFaults) else (error.fault,)
    return [
        Fault(
            code=fault.code,
            field=name,
            value=fault.value if fault.code == "unknown_name" else written,
            rule=fault.rule,
            remedy=fault.remedy,
        )
        for fault in faults
    ]
