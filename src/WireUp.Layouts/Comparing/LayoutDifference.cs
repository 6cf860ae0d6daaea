namespace WireUp.Layouts;

/// <summary>One thing in which two layouts differ.</summary>
/// <param name="Part">What it is.</param>
/// <param name="Kind">How it differs.</param>
/// <param name="Name">Its name as the later layout has it, or as the earlier had it where it is gone: <c>yard-1</c>, <c>T1.points</c>, <c>f12</c>, <c>east: P1 &gt; P2</c>.</param>
public sealed record LayoutDifference(LayoutPart Part, DifferenceKind Kind, string Name)
{
    /// <summary>What it was, in the words of the layout file, where bare lengths are millimetres; of a change only what differs. Empty where it was not there.</summary>
    public string Before { get; init; } = string.Empty;

    /// <summary>What it is, told as <see cref="Before"/> is; empty where it is gone.</summary>
    public string After { get; init; } = string.Empty;

    /// <summary>Of a piece of track: its name in the layout that has it, the later one where both do.</summary>
    public PieceId? Piece { get; init; }

    /// <summary>Of joints, gaps and feeders: where, by names of the later layout; of what is gone by names of the earlier.</summary>
    public GapPlace? At { get; init; }

    /// <summary>Of a feeder that moves: where it was, by names of the later layout where its piece is still there.</summary>
    public GapPlace? AtBefore { get; init; }

    /// <summary>Of a gap: the rails, seen as those of a <see cref="Gap"/> are.</summary>
    public RailSet Rails { get; init; }
}

/// <summary>What differs between two layouts.</summary>
public enum LayoutPart
{
    /// <summary>What the file says of the whole: scale, control, limits, defaults, stock, wishes.</summary>
    Setting,

    /// <summary>A piece of track.</summary>
    Track,

    /// <summary>A joint of two ends.</summary>
    Joint,

    /// <summary>A gap.</summary>
    Gap,

    /// <summary>A supply.</summary>
    Supply,

    /// <summary>A booster or controller.</summary>
    Booster,

    /// <summary>A power district with its breaker.</summary>
    District,

    /// <summary>A run of bus.</summary>
    BusRun,

    /// <summary>A hand switch.</summary>
    Switch,

    /// <summary>A feeder.</summary>
    Feeder,
}

/// <summary>How something differs.</summary>
public enum DifferenceKind
{
    /// <summary>It is new.</summary>
    Added,

    /// <summary>It is gone.</summary>
    Removed,

    /// <summary>It is at another place.</summary>
    Moved,

    /// <summary>It is there in both, and not alike.</summary>
    Changed,

    /// <summary>It is the same under another name.</summary>
    Renamed,
}
