using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.TrackworkRows;

/// <summary>Plain track: two conductors from end to end that never meet. A lift-out section conducts to its neighbours only when it is in.</summary>
internal static class PlainTrack
{
    /// <summary>Positions of a section that can be lifted or swung out.</summary>
    internal const string In = "in", Out = "out";

    private static readonly ImmutableArray<PhaseGroup> OnePhase = [new(["a"], ["b"])];

    private static readonly Trackwork Fixed = new([], [.. Rails.Along("a", "b")], [], [new("a", "b", null)], OnePhase);

    private static readonly Trackwork LiftOut = Fixed with { Positions = [In, Out], Ways = [new("a", "b", In)] };

    /// <summary>It does not join the rails.</summary>
    internal static Trackwork Stop { get; } = new([], [], [], [], [new(["a"], [])]);

    internal static Trackwork Row(Piece.Section section) => section.LiftOut ? LiftOut : Fixed;
}
