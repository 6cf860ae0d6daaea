using System.Collections.Immutable;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>A change of the track, put so that everything else in the file that names a piece, an end or a place can follow it.</summary>
internal sealed record TrackChange
{
    /// <summary>New pieces with their text.</summary>
    public ImmutableArray<(PieceId Name, Snippet.Map Text)> Added { get; init; } = [];

    /// <summary>New sections among them: chains pass through these.</summary>
    public ImmutableHashSet<PieceId> AddedSections { get; init; } = [];

    /// <summary>Pieces that go.</summary>
    public ImmutableHashSet<PieceId> Removed { get; init; } = [];

    /// <summary>Pieces that get another name.</summary>
    public ImmutableDictionary<PieceId, PieceId> Renamed { get; init; } = ImmutableDictionary<PieceId, PieceId>.Empty;

    /// <summary>Values of keys of pieces that stay; null takes the key out.</summary>
    public ImmutableArray<(PieceId Piece, string Key, string? Value)> Keys { get; init; } = [];

    /// <summary>Ends that lie on another piece afterwards.</summary>
    public ImmutableDictionary<TrackEnd, TrackEnd> MovedEnds { get; init; } = ImmutableDictionary<TrackEnd, TrackEnd>.Empty;

    /// <summary>Ends, by their old names, whose joints are taken apart.</summary>
    public ImmutableHashSet<TrackEnd> Parted { get; init; } = [];

    /// <summary>New joints between ends, by their new names.</summary>
    public ImmutableArray<(TrackEnd First, TrackEnd Second)> Joined { get; init; } = [];

    /// <summary>What becomes of the length of a section: the stretches of it that remain, in order. Sections that are not listed keep their places.</summary>
    public ImmutableDictionary<PieceId, ImmutableArray<Stretch>> Stretches { get; init; } = ImmutableDictionary<PieceId, ImmutableArray<Stretch>>.Empty;

    /// <summary>The name of a piece afterwards; of one that is cut the first part.</summary>
    public PieceId NameOf(PieceId piece) => Renamed.GetValueOrDefault(piece, piece);

    /// <summary>An end afterwards, or null where its piece goes.</summary>
    public TrackEnd? EndOf(TrackEnd end) => Removed.Contains(end.Piece)
        ? null
        : MovedEnds.TryGetValue(end, out TrackEnd moved) ? moved : end with { Piece = NameOf(end.Piece) };

    /// <summary>The pieces that a piece has become, none where it goes.</summary>
    public ImmutableArray<PieceId> PartsOf(PieceId piece) => Removed.Contains(piece)
        ? []
        : Stretches.TryGetValue(piece, out ImmutableArray<Stretch> parts) ? [.. parts.Select(part => part.Piece).Distinct()] : [NameOf(piece)];
}

/// <summary>A stretch of a section that remains, as distances along the section as it was.</summary>
/// <param name="Piece">The section that it becomes.</param>
/// <param name="From">Where it begins, in metres from end a.</param>
/// <param name="To">Where it ends.</param>
/// <param name="LengthMetres">How long it is afterwards.</param>
internal sealed record Stretch(PieceId Piece, double From, double To, double LengthMetres)
{
    /// <summary>So much the section may come out shorter, since its path is written in round numbers.</summary>
    private const double Slack = 2e-5;

    /// <summary>How far from its end a the stretch begins on the section that it becomes.</summary>
    public double Begins { get; init; }

    /// <summary>Whether that section goes on beyond the stretch, so that its end b is another one.</summary>
    public bool GoesOn { get; init; }

    /// <summary>A place of the old section on this stretch; one beyond it comes to the nearer end.</summary>
    public TrackPlace At(double metres)
    {
        double along = Math.Clamp(metres, From, To) - From;
        double share = To > From ? LengthMetres / (To - From) : 1;
        bool same = Math.Abs(share - 1) < 1e-9;
        double most = Math.Floor(Math.Max(LengthMetres - Slack, 0) * 1e5) / 1e5;
        double scaled = Math.Min(same && From == 0 ? along : Math.Round(same ? along : along * share, 5), most);
        return new(Piece, Begins > 0 ? Math.Round(scaled + Begins, 5) : scaled);
    }
}
