namespace WireUp.Layouts.Text;

/// <summary>A position in a text: line and column from 1, index from 0.</summary>
internal readonly record struct TextPosition(int Line, int Column, int Index)
{
    /// <summary>A position farther along the same line.</summary>
    public TextPosition Plus(int characters) => new(Line, Column + characters, Index + characters);
}
