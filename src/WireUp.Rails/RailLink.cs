using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Two rail points that conduct to each other. <c>From</c> and <c>To</c> index <see cref="RailGraph.Nodes"/>.</summary>
public abstract record RailLink
{
    private RailLink(int from, int to) => (From, To) = (from, to);

    /// <summary>Index of one node.</summary>
    public int From { get; }

    /// <summary>Index of the other node.</summary>
    public int To { get; }

    /// <summary>The node at the other side of the link.</summary>
    public int Opposite(int node) => node == From ? To : From;

    /// <summary>A length of one rail of a section, from <paramref name="StartMetres"/> to <paramref name="EndMetres"/> from its end a.</summary>
    public sealed record Rail(int FromNode, int ToNode, PieceId Section, RailSide Side, double StartMetres, double EndMetres)
        : RailLink(FromNode, ToNode)
    {
        /// <summary>Length in metres.</summary>
        public double LengthMetres => EndMetres - StartMetres;
    }

    /// <summary>Rails of a turnout or crossing that always conduct.</summary>
    public sealed record Bond(int FromNode, int ToNode, PieceId Piece, double LengthMetres) : RailLink(FromNode, ToNode)
    {
        /// <summary>Whether the copper foil of a tie makes it, where it should have been cut.</summary>
        public bool IsFoil { get; init; }
    }

    /// <summary>A blade or contact that conducts in one position only.</summary>
    public sealed record Contact(int FromNode, int ToNode, PieceId Piece, string Position, double LengthMetres)
        : RailLink(FromNode, ToNode)
    {
        /// <summary>Whether a wire leads from it to a conductor inside the piece, as to a frog; what is no wire is a blade or a rail that moves.</summary>
        public bool HasWire { get; init; }
    }

    /// <summary>One rail through a joint; <paramref name="Side"/> is seen looking out of the joint's first end.</summary>
    public sealed record Through(int FromNode, int ToNode, Joint Joint, RailSide Side) : RailLink(FromNode, ToNode);
}
