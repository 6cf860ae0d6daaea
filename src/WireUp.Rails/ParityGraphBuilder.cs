using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Collects the parts and links of a <see cref="ParityGraph"/> from the ways that the trackwork table gives each piece.</summary>
internal sealed class ParityGraphBuilder(LayoutIndex index)
{
    private readonly bool _threeRail = index.Layout.Control == ControlSystem.ThreeRail;
    private readonly double _staggerMetres = index.Layout.ShortestPickup.Meters;
    private readonly ILookup<PieceId, Gap> _gaps = index.Layout.Wiring.Gaps
        .Where(gap => gap is { At: GapPlace.InSection, BridgedWhen: null })
        .ToLookup(gap => ((GapPlace.InSection)gap.At).Place.Section);

    private readonly HashSet<TrackEnd> _minus = [];

    internal List<TrackPart> Parts { get; } = [];

    internal List<PartLink> Links { get; } = [];

    internal Dictionary<TrackEnd, int> PartAt { get; } = [];

    internal Dictionary<PieceId, int> PartOfBridge { get; } = [];

    internal ParityGraphBuilder Build()
    {
        foreach (Piece piece in index.Layout.Track)
        {
            if (piece is Piece.Section section)
            {
                AddSection(section, Cuts(_gaps[section.Id]));
            }
            else
            {
                AddTrackwork(piece);
            }
        }

        foreach (Joint joint in index.Layout.Joints)
        {
            AddJoint(joint);
        }

        return this;
    }

    /// <summary>
    /// Where both rails are cut. The two cuts of a pair need not lie opposite each other, but no farther apart than the
    /// shortest pick-up wheel base; the pair counts where the later one is.
    /// </summary>
    private List<double> Cuts(IEnumerable<Gap> gaps)
    {
        List<double> cuts = [];
        double left = double.NegativeInfinity, right = double.NegativeInfinity;
        foreach ((double metres, RailSet rails) in gaps.Select(Cut).OrderBy(cut => cut.Metres))
        {
            left = rails.Holds(RailSide.Left) ? metres : left;
            right = rails.Holds(RailSide.Right) ? metres : right;
            if (_threeRail ? left == metres : Math.Abs(left - right) <= _staggerMetres)
            {
                cuts.Add(metres);
                left = right = double.NegativeInfinity;
            }
        }

        return [.. cuts.Where((cut, i) => i == 0 || cut - cuts[i - 1] > RailGraphBuilder.SamePlaceMetres)];
    }

    private static (double Metres, RailSet Rails) Cut(Gap gap) => (((GapPlace.InSection)gap.At).Place.MetresFromA, gap.Rails);

    private void AddSection(Piece.Section section, List<double> cuts)
    {
        TrackEnd a = section.End("a"), b = section.End("b");
        PartAt[a] = Parts.Count;
        for (int i = 0; i <= cuts.Count; i++)
        {
            bool last = i == cuts.Count;
            Parts.Add(new(section.Id, i, i == 0 ? [a] : [], last ? [b] : [])
            {
                FromMetres = i == 0 ? 0 : cuts[i - 1],
                ToMetres = last ? section.Length.Meters : cuts[i],
            });
        }

        PartAt[b] = Parts.Count - 1;
        _minus.Add(b);
    }

    private void AddTrackwork(Piece piece)
    {
        Trackwork row = TrackworkTable.Of(piece, index.Layout.Control);
        ImmutableArray<PhaseGroup> groups = row.Phases;
        if (piece.PlacesMetres is not null)
        {
            PartOfBridge[piece.Id] = Parts.Count + (row.BridgeInPhase ? 0 : groups.Length);
        }

        for (int number = 0; number < groups.Length; number++)
        {
            ImmutableArray<TrackEnd> plus = [.. groups[number].Plus.Select(piece.End)], minus = [.. groups[number].Minus.Select(piece.End)];
            foreach (TrackEnd end in plus.Concat(minus))
            {
                PartAt[end] = Parts.Count;
            }

            _minus.UnionWith(minus);
            Parts.Add(new(piece.Id, number, plus, minus));
        }

        if (piece.PlacesMetres is not null && !row.BridgeInPhase)
        {
            Parts.Add(new(piece.Id, groups.Length, [], []));
        }
    }

    private void AddJoint(Joint joint)
    {
        if (!IsSeparated(joint))
        {
            bool flips = !_threeRail && _minus.Contains(joint.First) == _minus.Contains(joint.Second);
            Links.Add(new(PartAt[joint.First], PartAt[joint.Second], flips, joint));
        }
    }

    /// <summary>Both rails are open, in the joint itself or one there and the other in plain track a few millimetres away.</summary>
    private bool IsSeparated(Joint joint)
    {
        RailSet open = index.AlwaysOpenRails(joint.First);
        if (_threeRail)
        {
            return open.Holds(RailSide.Centre);
        }

        if (open is RailSet.None or RailSet.Both)
        {
            return open == RailSet.Both;
        }

        return ((open | CutNear(joint.First)) == RailSet.Both) || ((index.AlwaysOpenRails(joint.Second) | CutNear(joint.Second)) == RailSet.Both);
    }

    /// <summary>The rails cut within a section close to its end, seen looking out of that end.</summary>
    private RailSet CutNear(TrackEnd end)
    {
        if (index.Piece(end.Piece) is not Piece.Section section)
        {
            return RailSet.None;
        }

        bool atA = end.Name == "a";
        RailSet seenFromA = _gaps[section.Id].Select(Cut)
            .Where(cut => (atA ? cut.Metres : section.Length.Meters - cut.Metres) <= _staggerMetres)
            .Aggregate(RailSet.None, (set, cut) => set | cut.Rails);
        return atA && seenFromA is (RailSet.Left or RailSet.Right) ? RailSet.Both ^ seenFromA : seenFromA;
    }
}
