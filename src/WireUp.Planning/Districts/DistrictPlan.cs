using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Districts;

/// <summary>A power district as planned or as it stands.</summary>
/// <param name="Name">Its name.</param>
/// <param name="LengthMetres">Its length of plain track.</param>
/// <param name="Landmarks">Places by which its track is found.</param>
internal sealed record PlannedDistrict(string Name, double LengthMetres, ImmutableArray<TrackLandmark> Landmarks)
{
    /// <summary>Whether it is a reversing section.</summary>
    public bool IsReversing { get; init; }

    /// <summary>Whether the layout has it already.</summary>
    public bool IsBuilt { get; init; }

    /// <summary>Whether somebody asked for it by name.</summary>
    public bool IsWish { get; init; }

    /// <summary>Other track of its zone that is parted from the rest while it is dead; null where nobody asked for a way round.</summary>
    public double? CutOffMetres { get; init; }
}

/// <summary>How the track is divided into power districts.</summary>
/// <param name="Districts">The districts: built ones, reversing sections, asked-for ones, then the others, each kind in the order of the track.</param>
/// <param name="Borders">The new gaps between them.</param>
internal sealed record DistrictPlan(ImmutableArray<PlannedDistrict> Districts, ImmutableArray<DistrictBorder> Borders)
{
    /// <summary>Values and bounds.</summary>
    public ImmutableArray<Objective> Objectives { get; init; } = [];

    /// <summary>Feeders that are built and lie in another district than the one that feeds them, with the name of the district they lie in.</summary>
    public ImmutableArray<(string Name, string Place)> FeedersToMove { get; init; } = [];

    /// <summary>What could not be kept.</summary>
    public ImmutableArray<string> Remains { get; init; } = [];

    /// <summary>The new gaps in the words of the layout.</summary>
    public IEnumerable<Gap> Gaps(ControlSystem control) =>
        Borders.Select(border => new Gap(border.At, control == ControlSystem.ThreeRail ? RailSet.Left : RailSet.Both));
}

/// <summary>A new gap between two districts.</summary>
/// <param name="At">Where.</param>
/// <param name="One">One district.</param>
/// <param name="Other">The other.</param>
internal sealed record DistrictBorder(GapPlace At, string One, string Other);
