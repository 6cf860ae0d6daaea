using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>The best choice among candidates for one group of conflicts.</summary>
/// <param name="Chosen">The candidates that become sections, by number.</param>
/// <param name="Levels">What was minimised one after the other, in the order of <see cref="ChoiceLevel"/>.</param>
internal sealed record SectionChoice(ImmutableArray<Candidate> Chosen, ImmutableArray<LevelValue> Levels)
{
    /// <summary>The value and bound of one level.</summary>
    public LevelValue this[ChoiceLevel level] => Levels[(int)level];
}

/// <summary>What is minimised, the first before all others.</summary>
internal enum ChoiceLevel
{
    /// <summary>Existing feeders that are the wrong way round.</summary>
    WrongFeeders,

    /// <summary>Reversing sections.</summary>
    Sections,

    /// <summary>Dead-end roads inside sections beyond those allowed.</summary>
    Roads,

    /// <summary>Rails to cut.</summary>
    Gaps,

    /// <summary>Points away from good practice.</summary>
    Penalty,
}

/// <summary>A value reached, and the bound below which no choice among the candidates can go given the levels before.</summary>
internal readonly record struct LevelValue(double Value, double Bound);
