using System.Collections.Immutable;

namespace WireUp.Layouts;

/// <summary>What came out of reading a file of readings.</summary>
/// <param name="Readings">The readings, or null when a problem of severity error was found.</param>
/// <param name="Problems">Every problem, by line and column.</param>
public sealed record ReadingsReading(ReadingSet? Readings, ImmutableArray<LayoutProblem> Problems);
