using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Reversing;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Reversing.Audit;

/// <summary>A planned layout with its sections sawn in two at every gap, so that each piece lies wholly inside or outside.</summary>
internal sealed class SplitTrack
{
    private readonly ReversingPlan _plan;
    private readonly Dictionary<PieceId, (PieceId Section, double From, double To)> _origin = [];
    private readonly LayoutIndex _index;
    private readonly TrackGraph _track;

    public SplitTrack(Layout layout, ReversingPlan plan)
    {
        _plan = plan;
        List<Piece> pieces = [];
        List<Joint> joints = [];
        Dictionary<TrackEnd, TrackEnd> moved = [];
        foreach (Piece piece in layout.Track)
        {
            if (piece is Piece.Section section)
            {
                Split(section, pieces, joints, moved);
            }
            else
            {
                pieces.Add(piece);
            }
        }

        TrackEnd Moved(TrackEnd end) => moved.GetValueOrDefault(end, end);
        joints.AddRange(layout.Joints.Select(joint => new Joint(Moved(joint.First), Moved(joint.Second))));
        _index = new(layout with { Track = [.. pieces], Joints = [.. joints], Wiring = Wiring.None });
        _track = TrackGraph.Of(_index);
    }

    /// <summary>The ends of the section's own pieces at which it stops, each with the end outside that it meets.</summary>
    public ImmutableArray<(TrackEnd Inside, TrackEnd Outside)> Borders(ReversingSection section) =>
    [
        .. from end in _index.Layout.Track.Where(piece => IsInside(section, piece.Id)).SelectMany(piece => piece.Ends)
           let opposite = _index.Opposite(end)
           where opposite is not null && !IsInside(section, opposite.Value.Piece)
           select (end, opposite!.Value),
    ];

    /// <summary>The shortest drive between two borders, in metres, inside the section or outside of it; null when there is none.</summary>
    public double? Drive(ReversingSection section, TrackEnd from, TrackEnd to, bool inside) => _track.ShortestDrive(from, to, new()
    {
        Within = [.. _index.Layout.Track.Select(piece => piece.Id).Where(piece => IsInside(section, piece) == inside)],
    })?.LengthMetres;

    /// <summary>Whether the legs agree across a border in the section's normal phase; null beside a turnout.</summary>
    public bool? Agrees((TrackEnd Inside, TrackEnd Outside) border) =>
        LeftIsA(border.Inside) is { } inside && LeftIsA(border.Outside) is { } outside ? inside != outside : null;

    private bool? LeftIsA(TrackEnd end) => _origin.TryGetValue(end.Piece, out var origin)
        ? _plan.SwapAt(new(origin.Section, (origin.From + origin.To) / 2)) == (end.Name == "a")
        : null;

    public bool IsInside(ReversingSection section, PieceId piece) => _origin.TryGetValue(piece, out var origin)
        ? section.Contains(new(origin.Section, (origin.From + origin.To) / 2))
        : section.Turnouts.Contains(piece);

    private void Split(Piece.Section section, List<Piece> pieces, List<Joint> joints, Dictionary<TrackEnd, TrackEnd> moved)
    {
        double[] marks =
        [
            0,
            .. _plan.Sections.SelectMany(one => one.Borders).Select(border => border.At).OfType<GapPlace.InSection>()
                .Where(at => at.Place.Section == section.Id).Select(at => at.Place.MetresFromA).Order(),
            section.Length.Meters,
        ];
        for (int i = 1; i < marks.Length; i++)
        {
            Piece.Section part = new(new($"{section.Id}#{i}"), Length.FromMeters(marks[i] - marks[i - 1]));
            _origin[part.Id] = (section.Id, marks[i - 1], marks[i]);
            if (i > 1)
            {
                joints.Add(new(pieces[^1].End("b"), part.End("a")));
            }

            moved[i == 1 ? section.End("a") : section.End($"cut {i}")] = part.End("a");
            pieces.Add(part);
        }

        moved[section.End("b")] = pieces[^1].End("b");
    }
}
