using System.Collections.Immutable;

namespace WireUp.Layouts;

/// <summary>Faults that were found and cured on a railway, in the order of the file.</summary>
/// <param name="Faults">The faults.</param>
public sealed record FaultLog(ImmutableArray<LoggedFault> Faults)
{
    /// <summary>Nothing was logged.</summary>
    public static readonly FaultLog None = new([]);
}

/// <summary>A fault that was found and cured.</summary>
/// <param name="Part">The part, in the words that results name it by.</param>
/// <param name="Kind">What kind of part it is.</param>
/// <param name="Date">The day, as the person gave it.</param>
/// <param name="Cure">What was done.</param>
public sealed record LoggedFault(string Part, FaultElementKind Kind, DateOnly Date, string Cure)
{
    /// <summary>How it was faulty, or null where that is not known.</summary>
    public FaultState? State { get; init; }

    /// <summary>The readings that led to it, each as a sentence, with the turnouts as they stood.</summary>
    public ImmutableArray<string> Readings { get; init; } = [];
}

/// <summary>What came out of reading a fault log.</summary>
/// <param name="Log">The log, or null when a problem of severity error was found.</param>
/// <param name="Problems">Every problem, by line and column.</param>
public sealed record FaultLogReading(FaultLog? Log, ImmutableArray<LayoutProblem> Problems);
