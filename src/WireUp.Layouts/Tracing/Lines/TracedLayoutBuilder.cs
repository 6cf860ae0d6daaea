using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;

namespace WireUp.Layouts.Tracing.Lines;

/// <summary>Puts the pieces of a traced layout together.</summary>
internal sealed class TracedLayoutBuilder
{
    private readonly ImmutableArray<MergedTrack> _tracks;
    private readonly Dictionary<TrackTip, TrackTip> _tips = [];
    private readonly double[] _fromStart;
    private readonly double[] _fromEnd;
    private readonly List<Piece> _trackwork = [];
    private readonly List<Joint> _joints = [];
    private readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);

    /// <summary>Begins with the tracks.</summary>
    public TracedLayoutBuilder(ImmutableArray<MergedTrack> tracks)
    {
        (_tracks, _fromStart, _fromEnd) = (tracks, new double[tracks.Length], new double[tracks.Length]);
        for (int track = 0; track < tracks.Length; track++)
        {
            _tips[tracks[track].Begin] = new(track, true);
            _tips[tracks[track].End] = new(track, false);
            if (tracks[track].IsRing) _joints.Add(new(new(Name(track), "b"), new(Name(track), "a")));
        }
    }

    /// <summary>Adds what is at a node.</summary>
    /// <param name="verdict">What is there.</param>
    /// <param name="parts">The ends of track there, as they were before tracks were put together.</param>
    public void Add(NodeVerdict verdict, TrackTip[] parts)
    {
        if (verdict.Make is not { } make)
        {
            return;
        }

        int number = _numbers[verdict.Stem] = _numbers.GetValueOrDefault(verdict.Stem) + 1;
        Piece piece = make(new(string.Create(CultureInfo.InvariantCulture, $"{verdict.Stem}{number}")));
        _trackwork.Add(piece);
        foreach (string name in piece.EndNames)
        {
            int at = verdict.Ends.IndexOf(verdict.Ends.First(end => end?.End == name));
            TrackTip tip = _tips[parts[at]];
            (tip.AtStart ? _fromStart : _fromEnd)[tip.Track] = verdict.Ends[at]!.Value.Takes;
            _joints.Add(new(piece.End(name), End(tip)));
        }
    }

    /// <summary>Every piece: the sections, then the trackwork.</summary>
    public ImmutableArray<Piece> Track() => [.. _tracks.Select((_, i) => Section(i)), .. _trackwork];

    /// <summary>The joints, so ordered that sections are passed where they can be.</summary>
    public ImmutableArray<Joint> Joints() =>
    [
        .. _joints.Select(joint => joint.Second.Name == "b" && !IsSection(joint.First) ? new Joint(joint.Second, joint.First) : joint)
            .OrderBy(joint => IsSection(joint.First) ? Number(joint.First.Piece) : Number(joint.Second.Piece))
            .ThenBy(joint => IsSection(joint.First) ? 1 : 0),
    ];

    private static bool IsSection(TrackEnd end) => end.Name is "a" or "b";

    private static int Number(PieceId track) => int.Parse(track.Name.AsSpan("track-".Length), NumberStyles.None, CultureInfo.InvariantCulture);

    private Piece.Section Section(int track)
    {
        double whole = Polyline.Length(_tracks[track].Track.Points);
        ImmutableArray<PlanPoint> part = Polyline.Part(_tracks[track].Track.Points, _fromStart[track], whole - _fromEnd[track]);
        ImmutableArray<PlanPoint> rounded = [.. part.Select(point => new PlanPoint(TracedMeasure.Rounded(point.X), TracedMeasure.Rounded(point.Y)))];
        rounded = [.. rounded.Where((point, i) => i == 0 || point != rounded[i - 1])];
        return new(Name(track), Length.FromMeters(Polyline.Length(rounded))) { Path = rounded, LengthFromPath = true };
    }

    private static TrackEnd End(TrackTip tip) => new(Name(tip.Track), tip.AtStart ? "a" : "b");

    private static PieceId Name(int track) => new(string.Create(CultureInfo.InvariantCulture, $"track-{track + 1}"));
}
