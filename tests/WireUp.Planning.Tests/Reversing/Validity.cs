using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Reversing;

/// <summary>A reversing section as somebody draws it: its double gaps, and a place or an end inside.</summary>
internal sealed record DrawnSection(ImmutableArray<GapPlace> Gaps, TrackPlace? Place, TrackEnd? End)
{
    /// <param name="text">Gaps, a colon, and a place inside: <c>"left@4 T2.through : tail@1"</c>.</param>
    public static DrawnSection Of(string text)
    {
        string[] halves = text.Split(':', StringSplitOptions.TrimEntries);
        ImmutableArray<GapPlace> gaps = [.. halves[0].Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(GapAt)];
        return halves[1].Contains('@', StringComparison.Ordinal)
            ? new(gaps, PlaceOf(halves[1]), null)
            : new(gaps, null, Track.EndOf(halves[1]));
    }

    private static GapPlace GapAt(string gap) => gap.Contains('@', StringComparison.Ordinal)
        ? new GapPlace.InSection(PlaceOf(gap))
        : new GapPlace.InJoint(Track.EndOf(gap));

    private static TrackPlace PlaceOf(string text) =>
        new(new(text.Split('@')[0]), double.Parse(text.Split('@')[1], CultureInfo.InvariantCulture));
}

/// <summary>
/// Tests a set of reversing sections against the rules that make it a cure, by the signs of joined pieces and the drives of trains; it
/// knows nothing of the planner. The track is sawn into pieces at every gap first, so that all gaps lie in joints.
/// V1 the rest is free of conflict; V2 each section by itself is; V3 no two sections share a border; V4 between two borders that
/// want a section in opposite phase a train has its length; V6 every track that leaves a section is gapped.
/// </summary>
internal sealed class Validity
{
    private readonly ImmutableArray<DrawnSection> _sections;
    private readonly LayoutIndex _index;
    private readonly ParityGraph _parity;
    private readonly TrackGraph _track;
    private readonly ImmutableArray<(TrackEnd First, TrackEnd Second)> _gaps;
    private readonly ImmutableArray<int> _components;
    private readonly double _trainMetres;

    private Validity(Layout layout, ImmutableArray<DrawnSection> sections)
    {
        _sections = sections;
        Sawn sawn = new(layout, [.. sections.SelectMany(section => section.Gaps)]);
        _trainMetres = layout.LongestTrain.Meters;
        _index = new(sawn.Layout);
        _parity = ParityGraph.Of(_index);
        _track = TrackGraph.Of(_index);
        _gaps = [.. sawn.Layout.Wiring.Gaps.Select(gap => ((GapPlace.InJoint)gap.At).End).Select(end => (end, _index.Opposite(end)!.Value))];
        _components = [.. sections.Select(section => ComponentOf(section.End ?? sawn.EndAt(section.Place!.Value)))];
    }

    /// <summary>The rules that are broken, each once, in order; empty for a cure.</summary>
    public static string[] Broken(Layout layout, params IEnumerable<DrawnSection> sections) => [.. new Validity(layout, [.. sections]).Broken().Distinct().Order(StringComparer.Ordinal)];

    private IEnumerable<string> Broken()
    {
        bool Within(PartLink link, Func<int, bool> which) => which(_parity.Components[link.From]);
        if (!_parity.IsBalanced(link => Within(link, component => !_components.Contains(component))))
        {
            yield return "V1";
        }

        if (!_components.Distinct().All(section => _parity.IsBalanced(link => Within(link, component => component == section))))
        {
            yield return "V2";
        }

        if (Faces.Any(gap => gap.First != gap.Second && _components.Contains(gap.First) && _components.Contains(gap.Second)) || BridgesTouch())
        {
            yield return "V3";
        }

        if (_components.Distinct().Count() < _components.Length || Faces.Any(gap => gap.First == gap.Second && _components.Contains(gap.First)))
        {
            yield return "V6";
        }
        else if (!SomePhasesFit())
        {
            yield return "V4";
        }
    }

    private IEnumerable<(int First, int Second)> Faces => _gaps.Select(gap => (ComponentOf(gap.First), ComponentOf(gap.Second)));

    private int ComponentOf(TrackEnd end) => end.Name.Length == 0 ? _parity.Components[_parity.PartAt(new TrackPlace(end.Piece, 0))] : _parity.Components[_parity.PartAt(end)];

    /// <summary>A bridge that is a section, with a road that is part of another section right up to the pit.</summary>
    private bool BridgesTouch() => _sections.Select(section => section.Place?.Section).OfType<PieceId>()
        .Where(piece => _index.FindPiece(piece) is Piece.Turntable)
        .SelectMany(bridge => _index.Piece(bridge).Ends.Select(end => _index.Opposite(end)).OfType<TrackEnd>())
        .Any(road => _components.Contains(ComponentOf(road)));

    /// <summary>Whether the parts of fixed phase can be given phases so that a train fits wherever a section must swap.</summary>
    private bool SomePhasesFit()
    {
        (TrackEnd In, TrackEnd Out, int Section)[] borders =
        [
            .. _gaps.SelectMany(gap => new[] { (In: gap.First, Out: gap.Second), (In: gap.Second, Out: gap.First) })
                .Where(gap => _components.Contains(ComponentOf(gap.In)))
                .Select(gap => (gap.In, gap.Out, ComponentOf(gap.In))),
        ];
        int[] outside = [.. borders.Select(border => ComponentOf(border.Out)).Distinct().Order()];
        (int One, int Other)[] tooShort =
        [
            .. from i in Enumerable.Range(0, borders.Length)
               from j in Enumerable.Range(0, borders.Length)
               where i != j && borders[i].Section == borders[j].Section
               let metres = _track.ShortestDrive(borders[i].In, borders[j].In, new() { Within = Pieces(borders[i].Section) })?.LengthMetres
               where metres < _trainMetres - 1e-6
               select (i, j),
        ];
        Assert.True(outside.Length < 16);
        return Enumerable.Range(0, 1 << outside.Length).Any(pattern =>
            tooShort.All(pair => Demand(borders[pair.One], pattern) == Demand(borders[pair.Other], pattern)));

        int Demand((TrackEnd In, TrackEnd Out, int Section) border, int pattern)
        {
            (int inside, int beyond) = (_parity.PartAt(border.In), _parity.PartAt(border.Out));
            bool sameKind = _parity.Parts[inside].PlusEnds.Contains(border.In) == _parity.Parts[beyond].PlusEnds.Contains(border.Out);
            int phase = (pattern >> Array.IndexOf(outside, _parity.Components[beyond]) & 1) == 0 ? 1 : -1;
            return _parity.Signs[inside] * _parity.Signs[beyond] * phase * (sameKind ? -1 : 1);
        }
    }

    private ImmutableHashSet<PieceId> Pieces(int component) =>
        [.. Enumerable.Range(0, _parity.Parts.Length).Where(part => _parity.Components[part] == component).Select(part => _parity.Parts[part].Piece)];

    /// <summary>The layout with its sections sawn in two at every gap and all gaps in joints.</summary>
    private sealed class Sawn
    {
        private readonly Dictionary<PieceId, List<(PieceId Piece, double From, double To)>> _parts = [];

        public Sawn(Layout layout, ImmutableArray<GapPlace> gaps)
        {
            List<Piece> pieces = [];
            List<Joint> joints = [];
            List<Gap> cuts = [];
            foreach (Piece piece in layout.Track)
            {
                double[] marks = [.. gaps.OfType<GapPlace.InSection>().Where(gap => gap.Place.Section == piece.Id).Select(gap => gap.Place.MetresFromA).Distinct().Order()];
                if (piece is Piece.Section section)
                {
                    Saw(section, marks, pieces, joints, cuts);
                }
                else
                {
                    pieces.Add(piece);
                }
            }

            joints.AddRange(layout.Joints.Select(joint => joint with { First = Moved(joint.First), Second = Moved(joint.Second), Insulated = RailSet.None }));
            cuts.AddRange(gaps.OfType<GapPlace.InJoint>().Select(gap => new Gap(new GapPlace.InJoint(Moved(gap.End)), RailSet.Both)));
            Layout = layout with { Track = [.. pieces], Joints = [.. joints], Wiring = Wiring.None with { Gaps = [.. cuts] } };
        }

        public Layout Layout { get; }

        /// <summary>An end of the sawn piece at a place; of a bridge an end without a name.</summary>
        public TrackEnd EndAt(TrackPlace place) => _parts.TryGetValue(place.Section, out var parts)
            ? new(parts.First(part => place.MetresFromA <= part.To + 1e-9).Piece, "a")
            : new(place.Section, "");

        private TrackEnd Moved(TrackEnd end) => _parts.TryGetValue(end.Piece, out var parts)
            ? new(end.Name == "a" ? parts[0].Piece : parts[^1].Piece, end.Name)
            : end;

        private void Saw(Piece.Section section, double[] marks, List<Piece> pieces, List<Joint> joints, List<Gap> cuts)
        {
            double[] all = [0, .. marks, section.Length.Meters];
            _parts[section.Id] = [];
            for (int i = 1; i < all.Length; i++)
            {
                Piece.Section part = new(new($"{section.Id}#{i}"), Length.FromMeters(all[i] - all[i - 1]));
                if (i > 1)
                {
                    joints.Add(new(pieces[^1].End("b"), part.End("a")));
                    cuts.Add(new(new GapPlace.InJoint(part.End("a")), RailSet.Both));
                }

                _parts[section.Id].Add((part.Id, all[i - 1], all[i]));
                pieces.Add(part);
            }
        }
    }
}
