using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Planning.Reversing;

/// <summary>Which reversing sections a layout needs, and how every piece of its track is to be fed.</summary>
/// <param name="Sections">The new sections, in order of name.</param>
/// <param name="Phases">Every stretch of plain track between new double gaps, and every moving bridge that is fed by itself, by section and distance.</param>
public sealed record ReversingPlan(ImmutableArray<ReversingSection> Sections, ImmutableArray<PhaseStretch> Phases)
{
    /// <summary>One proposal for each section and one for each of its gaps, in the order of work.</summary>
    public ImmutableArray<Proposal> Proposals { get; init; } = [];

    /// <summary>
    /// Value and bound of <c>reversing-sections</c> and of <c>reversing-gaps</c> (rails cut), the bounds among the choices considered; and of
    /// <c>reversing-borders</c> (new double gaps), whose bound holds for sections of any shape.
    /// </summary>
    public ImmutableArray<Objective> Objectives { get; init; } = [];

    /// <summary>What could not be mended, and where the layout would have to change; empty when all is well.</summary>
    public ImmutableArray<string> Remains { get; init; } = [];

    /// <summary>Every gap to be cut, in the order of the sections.</summary>
    public ImmutableArray<Gap> Gaps => [.. Completed, .. Sections.SelectMany(section => section.NewGaps)];

    /// <summary>Feeders that are built the wrong way round against the others, in order of name.</summary>
    public ImmutableArray<string> WrongFeeders { get; init; } = [];

    /// <summary>Cuts in one rail that complete a gap at the border of a reversing section that is wired.</summary>
    public ImmutableArray<Gap> Completed { get; private init; } = [];

    /// <summary>The plan with cuts that complete gaps; each is a rail that any plan must cut which leaves the wired section where it is.</summary>
    internal ReversingPlan WithCompleted(ImmutableArray<Gap> cuts) => cuts.IsEmpty ? this : this with
    {
        Completed = cuts,
        Proposals = [.. cuts.Select((cut, i) => HalfGaps.Words(cut, i + 1)), .. Proposals],
        Objectives = [.. Objectives.Select(objective => objective.Name == "reversing-gaps"
            ? new Objective(objective.Name, objective.Value + cuts.Length, objective.Bound + cuts.Length)
            : objective)],
    };

    /// <summary>The new section that a place lies in, or null for track of fixed polarity.</summary>
    public ReversingSection? SectionAt(TrackPlace place) => Sections.FirstOrDefault(section => section.Contains(place));

    /// <summary>
    /// Whether a feeder at this place must be swapped (leg A to the section's right rail) so that all track of fixed polarity agrees,
    /// and each reversing section agrees within itself.
    /// </summary>
    public bool SwapAt(TrackPlace place)
    {
        foreach (PhaseStretch phase in Phases)
        {
            if (phase.Stretch.Contains(place))
            {
                return phase.Swap;
            }
        }

        throw new ArgumentOutOfRangeException(nameof(place), place, "not a place of this layout");
    }
}

/// <summary>A new reversing section. Its device is a district of its name with <c>reversing: true</c>.</summary>
/// <param name="Name">Name of the section and of its district, for instance <c>turn-1</c>.</param>
/// <param name="Turnouts">Turnouts and other trackwork inside, by name.</param>
/// <param name="Stretches">Plain track and moving bridges inside, by section and distance.</param>
/// <param name="Borders">Where it ends: both rails parted.</param>
public sealed record ReversingSection(
    string Name, ImmutableArray<PieceId> Turnouts, ImmutableArray<TrackStretch> Stretches, ImmutableArray<ReversingBorder> Borders)
{
    /// <summary>
    /// Length a train has to itself while the section swaps: the shortest drive between two gaps that want opposite polarity; where
    /// trains can only turn by reversing, the longest road in which they do.
    /// </summary>
    public required Length Drivable { get; init; }

    /// <summary>Whether trains can pass it only by changing direction inside, as in the tail of a wye.</summary>
    public required bool TurnsByReversing { get; init; }

    /// <summary>
    /// A single section that would do in place of this one and its companions, and why it is not proposed; null where there is none.
    /// </summary>
    public string? Instead { get; init; }

    /// <summary>
    /// What would be proposed were the track of this section not to be had, and why it lost; null unless
    /// <see cref="ReversingOptions.NextBest"/> asks for it.
    /// </summary>
    public string? NextBest { get; init; }

    /// <summary>Whether it is the bridge of a turntable, which the air gaps at the pit's edge bound.</summary>
    public bool IsBridge { get; init; }

    /// <summary>The gaps to be cut: those of <see cref="Borders"/> that are not there yet.</summary>
    public ImmutableArray<Gap> NewGaps => [.. Borders.Where(border => !border.Exists).Select(border => new Gap(border.At, RailSet.Both))];

    /// <summary>Existing feeders of other districts that must be moved to this section's device; empty unless rework was allowed.</summary>
    public ImmutableArray<string> FeedersToMove { get; init; } = [];

    /// <summary>Whether a place lies inside. A place at a gap counts as inside.</summary>
    public bool Contains(TrackPlace place) => Stretches.Any(stretch => stretch.Contains(place));
}

/// <summary>A double gap that bounds a reversing section.</summary>
/// <param name="At">Where.</param>
/// <param name="Exists">Whether both rails are parted there already.</param>
public sealed record ReversingBorder(GapPlace At, bool Exists);

/// <summary>Part of a section of plain track.</summary>
/// <param name="Section">The section.</param>
/// <param name="FromMetres">Start, distance from end a in metres.</param>
/// <param name="ToMetres">End, distance from end a in metres; not less than <paramref name="FromMetres"/>.</param>
public readonly record struct TrackStretch(PieceId Section, double FromMetres, double ToMetres)
{
    /// <summary>Whether a place lies on it, its ends included.</summary>
    public bool Contains(TrackPlace place) =>
        place.Section == Section
        && place.MetresFromA >= FromMetres - CellMap.SamePlaceMetres
        && place.MetresFromA <= ToMetres + CellMap.SamePlaceMetres;
}

/// <summary>How a stretch of track is to be fed.</summary>
/// <param name="Stretch">The stretch.</param>
/// <param name="Swap">
/// Whether leg A goes to the right rail, seen from end a to end b; inside a reversing section in its normal phase.
/// </param>
public readonly record struct PhaseStretch(TrackStretch Stretch, bool Swap);
