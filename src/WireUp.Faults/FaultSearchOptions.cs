namespace WireUp.Faults;

/// <summary>What a search for faults is to do.</summary>
public sealed record FaultSearchOptions
{
    /// <summary>Whether two faults at a time are tried too.</summary>
    public bool Pairs { get; init; }

    /// <summary>Whether what pairs that were not weighed may weigh is bounded, and the weightiest of them weighed: most of the work of pairs.</summary>
    public bool BoundsPairs { get; init; } = true;

    /// <summary>Most explanations that are listed, 2 or more.</summary>
    public int Most { get; init; } = 20;

    /// <summary>Explanations less probable than this are not listed, but for the first two.</summary>
    public double LeastProbability { get; init; } = 1e-4;

    /// <summary>Most suggestions of what to measure next; 0 saves the work.</summary>
    public int MostNext { get; init; } = 5;
}
