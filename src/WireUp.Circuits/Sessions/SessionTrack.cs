using System.Collections.Immutable;

namespace WireUp.Circuits.Sessions;

/// <summary>One cell driven through in one direction; the other direction is the leg of number ^ 1.</summary>
/// <param name="Cell">The length of track, or the piece of trackwork, that one train can be on at a time.</param>
/// <param name="Metres">Its length.</param>
/// <param name="District">The district that feeds it, an index of the layout's.</param>
/// <param name="Stretch">The stretch it is part of, in this direction.</param>
/// <param name="Index">Which leg of that stretch, from 0.</param>
internal readonly record struct TrackLeg(int Cell, double Metres, int District, int Stretch, int Index);

/// <summary>
/// Track without a choice, in one direction: plain track between trackwork, or one way through trackwork. The other direction is the
/// stretch of number ^ 1.
/// </summary>
/// <param name="Legs">Its legs in the order driven.</param>
/// <param name="Metres">Its length.</param>
/// <param name="IsTrackwork">Whether it is a way through trackwork.</param>
/// <param name="From">The junction it begins at; dead ends have a number each.</param>
/// <param name="To">The junction it ends at.</param>
/// <param name="Next">The stretches a train can go on to; empty at a dead end.</param>
internal sealed record TrackStretch(ImmutableArray<int> Legs, double Metres, bool IsTrackwork, int From, int To, ImmutableArray<int> Next);

/// <summary>The fed track as trains drive it and take it from each other.</summary>
/// <param name="Legs">Every leg.</param>
/// <param name="Stretches">Every stretch.</param>
/// <param name="CellCount">How many cells there are.</param>
/// <param name="JunctionCount">How many junctions and dead ends there are.</param>
internal sealed record SessionTrack(
    ImmutableArray<TrackLeg> Legs, ImmutableArray<TrackStretch> Stretches, int CellCount, int JunctionCount)
{
    /// <summary>The stretches of plain track, in their forward direction.</summary>
    internal IEnumerable<int> Lines => Enumerable.Range(0, Stretches.Length / 2).Select(pair => 2 * pair).Where(line => !Stretches[line].IsTrackwork);
}
