using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// What closing gaps does to the signs of the track: whether some closed walk would then bring rail A to rail B, or two feeders of
/// one phase contradict each other. Only the pieces beside a gap are looked at; the rest is known from the parity graph.
/// </summary>
internal sealed class GapParityWorkspace
{
    private readonly LayoutIndex _index;
    private readonly ImmutableArray<TrackPart> _parts;
    private readonly Dictionary<PieceId, int> _firstPart = [];
    private readonly SignUnionWorkspace _signs;
    private readonly ILookup<PieceId, Gap> _sectionGaps;
    private readonly ILookup<TrackEnd, Gap> _jointGaps;
    private readonly Dictionary<(PieceId, double), RailSet> _closedInSections = [];
    private readonly Dictionary<TrackEnd, RailSet> _closedInJoints = [];
    private readonly List<(int From, int To, int Gap)> _links = [];
    private readonly DisjointSetsWorkspace _known;

    internal GapParityWorkspace(MendedRails rails)
    {
        (_index, _parts) = (rails.Graph.Index, rails.Parity.Parts);
        for (int part = _parts.Length - 1; part >= 0; part--)
        {
            _firstPart[_parts[part].Piece] = part;
        }

        Wiring wiring = rails.Graph.Layout.Wiring;
        _sectionGaps = wiring.Gaps.Where(gap => gap.At is GapPlace.InSection).ToLookup(gap => ((GapPlace.InSection)gap.At).Place.Section);
        _jointGaps = wiring.Gaps.Where(gap => gap.At is GapPlace.InJoint).ToLookup(gap => ((GapPlace.InJoint)gap.At).End);
        ImmutableArray<string> phases = [.. wiring.Districts.Select(district => rails.Relations.PhaseOf(district.Name)).Distinct()];
        _signs = new(_parts.Length + phases.Length);
        _known = new(_parts.Length + phases.Length);
        foreach (PartLink link in rails.Parity.Links)
        {
            Know(link.From, link.To, link.Flips);
        }

        HashSet<string> fed = [.. rails.Fed.Select(wire => wire.Wire.Feeder)];
        foreach (Feeder feeder in wiring.Feeders.Where(feeder => fed.Contains(feeder.Name) && feeder.When is null))
        {
            Know(rails.Parity.PartAt(feeder.At), _parts.Length + phases.IndexOf(rails.Relations.PhaseOf(feeder.District)), feeder.Swap);
        }
    }

    /// <summary>
    /// Null where a gap may be closed besides those closed before; else the ones among them that are to blame too. The gap is then open again.
    /// </summary>
    internal ImmutableArray<int>? Close(GapFaces gap, int number, bool keep)
    {
        Mark(gap, closed: true);
        ImmutableArray<(int From, int To, bool Differ)> links = Links(gap);
        ImmutableArray<int>? blame = Blame(links);
        if (blame is null && keep)
        {
            foreach ((int from, int to, bool differ) in links)
            {
                _signs.Join(from, to, differ);
                _links.Add((from, to, number));
            }
        }
        else
        {
            Mark(gap, closed: false);
        }

        return blame;
    }

    private void Know(int one, int other, bool differ)
    {
        _signs.Join(one, other, differ);
        _known.Join(one, other);
    }

    private ImmutableArray<int>? Blame(ImmutableArray<(int From, int To, bool Differ)> links)
    {
        List<int> roots = [.. links.SelectMany(link => new[] { _signs.Find(link.From).Root, _signs.Find(link.To).Root }).Distinct().Order()];
        SignUnionWorkspace local = new(roots.Count);
        foreach ((int from, int to, bool differ) in links)
        {
            ((int one, bool oneDiffers), (int other, bool otherDiffers)) = (_signs.Find(from), _signs.Find(to));
            if (!local.Join(roots.BinarySearch(one), roots.BinarySearch(other), oneDiffers ^ otherDiffers ^ differ))
            {
                return Between(from, to);
            }
        }

        return null;
    }

    /// <summary>The closed gaps over which two parts of the track hang together.</summary>
    private ImmutableArray<int> Between(int from, int to)
    {
        ILookup<int, (int Next, int Gap)> steps = _links
            .SelectMany(link => new[] { (At: _known.Find(link.From), Next: _known.Find(link.To), link.Gap), (At: _known.Find(link.To), Next: _known.Find(link.From), link.Gap) })
            .ToLookup(step => step.At, step => (step.Next, step.Gap));
        (int start, int goal) = (_known.Find(from), _known.Find(to));
        Dictionary<int, ImmutableArray<int>> reached = new() { [start] = [] };
        Queue<int> queue = new([start]);
        while (!reached.ContainsKey(goal) && queue.TryDequeue(out int at))
        {
            foreach ((int next, int gap) in steps[at])
            {
                if (reached.TryAdd(next, reached[at].Add(gap)))
                {
                    queue.Enqueue(next);
                }
            }
        }

        return reached.GetValueOrDefault(goal, []);
    }

    /// <summary>What holds of the parts beside a gap as the gaps are closed now.</summary>
    private ImmutableArray<(int From, int To, bool Differ)> Links(GapFaces gap)
    {
        ParityGraph beside = ParityGraph.Of(new LayoutIndex(Beside(gap)));
        ImmutableArray<ImmutableArray<int>> known = [.. beside.Parts.Select(Known)];
        return
        [
            .. known.SelectMany(parts => parts.Skip(1).Select(part => (parts[0], part, false))),
            .. beside.Links.Select(link => (known[link.From][0], known[link.To][0], link.Flips)),
        ];
    }

    /// <summary>The parts that a part is made of while the gaps are open.</summary>
    private ImmutableArray<int> Known(TrackPart part)
    {
        int first = _firstPart[part.Piece];
        if (_index.Piece(part.Piece) is not Piece.Section)
        {
            return [first + part.Number];
        }

        ImmutableArray<int>.Builder parts = ImmutableArray.CreateBuilder<int>();
        for (int i = first; i < _parts.Length && _parts[i].Piece == part.Piece; i++)
        {
            double middle = (_parts[i].FromMetres + _parts[i].ToMetres) / 2;
            if (middle >= part.FromMetres && middle <= part.ToMetres)
            {
                parts.Add(i);
            }
        }

        return parts.Count > 0 ? parts.ToImmutable() : [first];
    }

    /// <summary>The pieces beside a gap with the joints that its closing may touch.</summary>
    private Layout Beside(GapFaces gap)
    {
        ImmutableArray<Joint> joints = gap.At switch
        {
            GapPlace.InJoint joint => [_index.JointAt(joint.End)!],
            GapPlace.InSection within => [.. _index.Piece(within.Place.Section).Ends.Select(_index.JointAt).OfType<Joint>().Distinct()],
            _ => throw new InvalidOperationException($"not a place of a gap: {gap.At}"),
        };
        ImmutableArray<PieceId> pieces = [.. joints.SelectMany(joint => new[] { joint.First.Piece, joint.Second.Piece })
            .Concat(gap.At is GapPlace.InSection { Place.Section: var section } ? [section] : []).Distinct()];
        return _index.Layout with
        {
            Track = [.. pieces.Select(_index.Piece)],
            Joints = [.. joints.Select(joint => joint with { Insulated = joint.Insulated & ~_closedInJoints.GetValueOrDefault(joint.First) })],
            Wiring = Wiring.None with { Gaps = [.. pieces.SelectMany(piece => _sectionGaps[piece]).Select(Open), .. joints.SelectMany(Gaps)] },
        };
    }

    private Gap Open(Gap gap)
    {
        TrackPlace place = ((GapPlace.InSection)gap.At).Place;
        return gap with { Rails = gap.Rails & ~_closedInSections.GetValueOrDefault((place.Section, Rounded(place.MetresFromA))) };
    }

    private IEnumerable<Gap> Gaps(Joint joint)
    {
        RailSet closed = _closedInJoints.GetValueOrDefault(joint.First);
        return
        [
            .. _jointGaps[joint.First].Select(gap => gap with { Rails = gap.Rails & ~closed }),
            .. _jointGaps[joint.Second].Select(gap => gap with { Rails = gap.Rails & ~closed.Across(_index.Layout.Control) }),
        ];
    }

    private void Mark(GapFaces gap, bool closed)
    {
        RailSet rail = gap.Side is RailSide.Left or RailSide.Centre ? RailSet.Left : RailSet.Right;
        if (gap.At is GapPlace.InSection { Place: var place })
        {
            (PieceId, double) key = (place.Section, Rounded(place.MetresFromA));
            _closedInSections[key] = closed ? _closedInSections.GetValueOrDefault(key) | rail : _closedInSections.GetValueOrDefault(key) & ~rail;
        }
        else if (gap.At is GapPlace.InJoint { End: var end })
        {
            _closedInJoints[end] = closed ? _closedInJoints.GetValueOrDefault(end) | rail : _closedInJoints.GetValueOrDefault(end) & ~rail;
        }
    }

    private static double Rounded(double metres) => Math.Round(metres, 5);
}
