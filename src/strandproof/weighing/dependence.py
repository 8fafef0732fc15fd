"""Several observations of one case: what multiplies and what does not."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import prod

from strandproof.errors import LikelihoodMismatchError, ParameterError
from strandproof.records.entries import Likelihood, Observation
from strandproof.weighing.likelihoods import weaker_status
from strandproof.weighing.wording import count_word, listed


@dataclass(frozen=True, slots=True, kw_only=True)
class ObservedLikelihoods:
    """An observation with the likelihood entered under each hypothesis.

    Parameters
    ----------
    observation : Observation
        What was found.
    likelihoods : tuple of Likelihood
        One for each hypothesis.
    """

    observation: Observation
    likelihoods: tuple[Likelihood, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DependenceGroup:
    """Observations that share a cause of error and do not multiply.

    Parameters
    ----------
    name : str
        What they share; empty where nothing was stated.
    observations : tuple of str
        Their names.
    words : str
        The rule applied to them.
    """

    name: str
    observations: tuple[str, ...]
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JointLikelihoods:
    """Likelihoods of several observations together.

    Parameters
    ----------
    likelihoods : tuple of Likelihood
        One for each hypothesis, for `likelihood_ratio` and `claim_result`; use
        them with `WeighingRules.for_joint_likelihoods`.
    groups : tuple of DependenceGroup
        What was multiplied (between groups) and what was not (within one).
    """

    likelihoods: tuple[Likelihood, ...]
    groups: tuple[DependenceGroup, ...]


def joint_likelihoods(observed: Sequence[ObservedLikelihoods]) -> JointLikelihoods:
    """Likelihoods of several observations together, by dependence group.

    Within a group complete dependence is assumed, between groups independence.
    Observations without a stated group count as one group, and groups that rest
    on the same evidence are merged: multiplying needs a reason, not multiplying
    needs none.

    Parameters
    ----------
    observed : sequence of ObservedLikelihoods
        One or more, each with the same hypotheses.

    Returns
    -------
    JointLikelihoods
        Best, lower and upper likelihood under each hypothesis.

    Raises
    ------
    ParameterError
        If nothing is given, or an observation is given twice.
    LikelihoodMismatchError
        If the observations do not have likelihoods under the same hypotheses.

    Notes
    -----
    Group: P(all | H) = min P(each | H), the largest value that the single
    probabilities allow (upper Frechet-Hoeffding bound, reached when whatever
    lets the least probable one happen brings the others along). The ratio of
    such a group lies between its smallest and its largest single ratio, so
    dependent observations never exceed the strongest of them. Groups: product,
    with the ends of the ranges multiplied likewise.

    References
    ----------
    M. Frechet, 1951; W. Hoeffding, 1940 (bounds named from memory).
    """
    groups = _groups(observed)
    names = _hypotheses(observed)
    return JointLikelihoods(
        likelihoods=tuple(_joint(name, groups) for name in names),
        groups=tuple(_described(group) for group in groups),
    )


def strands_sentence(observation: Observation) -> str:
    """Say that the strands behind one observation do not multiply.

    Parameters
    ----------
    observation : Observation
        What was found.

    Returns
    -------
    str
        A sentence; empty for fewer than two strands.
    """
    if observation.strands < 2:
        return ""
    shared = observation.dependence_group or "their causes of error"
    number = count_word(observation.strands).capitalize()
    return f"{number} strands share {shared} and do not multiply."


def _hypotheses(observed: Sequence[ObservedLikelihoods]) -> tuple[str, ...]:
    names = tuple(each.hypothesis for each in observed[0].likelihoods)
    for one in observed:
        own = [each.hypothesis for each in one.likelihoods]
        for name in {*names, *own}:
            if own.count(name) != 1 or name not in names:
                problem = f"does not occur once in observation {one.observation.id!r}"
                raise LikelihoodMismatchError(name, problem, names)
    return names


def _groups(
    observed: Sequence[ObservedLikelihoods],
) -> list[list[ObservedLikelihoods]]:
    labels = [each.observation.id for each in observed]
    if not labels or len(set(labels)) < len(labels):
        raise ParameterError("observed", labels, allowed="one or more, each once")
    groups: list[list[ObservedLikelihoods]] = []
    for each in observed:
        related = [group for group in groups if _related(each, group)]
        merged = [one for group in related for one in group]
        groups = [group for group in groups if group not in related]
        groups.append([*merged, each])
    return groups


def _related(one: ObservedLikelihoods, group: Sequence[ObservedLikelihoods]) -> bool:
    new = one.observation
    return any(
        new.dependence_group == old.observation.dependence_group
        or set(new.evidence) & set(old.observation.evidence)
        for old in group
    )


def _of(name: str, one: ObservedLikelihoods) -> Likelihood:
    return next(each for each in one.likelihoods if each.hypothesis == name)


def _joint(name: str, groups: Sequence[Sequence[ObservedLikelihoods]]) -> Likelihood:
    entries = [[_of(name, one) for one in group] for group in groups]
    return Likelihood(
        hypothesis=name,
        best=prod(min(each.best for each in group) for group in entries),
        lower=prod(min(each.lower for each in group) for group in entries),
        upper=prod(min(each.upper for each in group) for group in entries),
        status=weaker_status(*(each.status for group in entries for each in group)),
        source=f"together: {_joint_source(groups)}",
    )


def _joint_source(groups: Sequence[Sequence[ObservedLikelihoods]]) -> str:
    texts = [" with ".join(each.observation.id for each in one) for one in groups]
    return " times ".join(texts)


def _described(group: Sequence[ObservedLikelihoods]) -> DependenceGroup:
    names = tuple(each.observation.id for each in group)
    shared = list(dict.fromkeys(each.observation.dependence_group for each in group))
    name = listed([each for each in shared if each])
    return DependenceGroup(
        name=name, observations=names, words=_group_words(names, name, shared)
    )


def _group_words(names: Sequence[str], name: str, shared: Sequence[str]) -> str:
    if len(names) == 1:
        return f"{names[0]} stands alone; it multiplies with the other groups."
    which = f"{listed(list(names))} do not multiply"
    if len(shared) > 1:
        return f"{which}: they rest on the same evidence."
    if not name:
        return f"{which}: no dependence group was stated, so none is assumed apart."
    return f"{which}: they share {name}."
