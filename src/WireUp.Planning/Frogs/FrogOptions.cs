namespace WireUp.Planning.Frogs;

/// <summary>How frogs are planned.</summary>
public sealed record FrogOptions
{
    /// <summary>The defaults.</summary>
    public static readonly FrogOptions Default = new();

    /// <summary>
    /// Whether dead-end roads beyond a live frog stay without feeders of their own and go dead when the points are set
    /// against them, as is wanted for parking under direct current. Default false: every road is live.
    /// </summary>
    public bool DeadEndRoadsFollowPoints { get; init; }
}
