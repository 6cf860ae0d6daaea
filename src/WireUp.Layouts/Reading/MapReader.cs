using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>
/// Reads one mapping by its <see cref="KeySet"/>: unknown keys are reported when it is opened, everything else when it is asked
/// for. Each question answers null after reporting why, so that one reading finds every problem.
/// </summary>
internal sealed class MapReader
{
    private readonly ReadContext _context;
    private readonly KeySet _keys;
    private readonly ImmutableArray<TextEntry> _entries;
    private readonly TextPosition _at;
    private readonly bool _broken;

    /// <param name="context">Where problems go.</param>
    /// <param name="node">The mapping; nothing counts as an empty one.</param>
    /// <param name="keys">Its keys.</param>
    /// <param name="at">Where a missing key is reported: the key or name this mapping belongs to.</param>
    public MapReader(ReadContext context, TextNode node, KeySet keys, TextPosition at)
    {
        (_context, _keys, _at) = (context, keys, at);
        _entries = node is TextNode.Mapping mapping ? mapping.Entries : [];
        _broken = node is not (TextNode.Mapping or TextNode.Scalar { IsNull: true });
        if (_broken)
        {
            context.WrongShape(node, keys.What, $"a mapping with the keys {Spelling.List(keys.Keys)}");
        }

        foreach (TextEntry entry in _entries)
        {
            CheckKey(entry.Key);
        }
    }

    public TextPosition At => _at;

    public bool Has(string key) => Find(key) is not null;

    /// <summary>The entry of a key, or null where it is not written.</summary>
    public TextEntry? Find(string key)
    {
        ArgumentOutOfRangeException.ThrowIfEqual(_keys.Holds(key), false, key);
        return _entries.FirstOrDefault(entry => entry.Key.Value == key);
    }

    /// <summary>The entry of a key that must be there.</summary>
    public TextEntry? Require(string key, string expected)
    {
        TextEntry? entry = Find(key);
        if (entry is null && !_broken)
        {
            _context.Add(LayoutRules.MissingKey, _at, "", $"{_keys.What} needs the key \"{key}\"", $"{key}: {expected}");
        }

        return entry;
    }

    /// <summary>The single value of an entry.</summary>
    public TextNode.Scalar? Scalar(TextEntry? entry, string expected)
    {
        if (entry?.Value is null or TextNode.Scalar { IsNull: false })
        {
            return entry?.Value as TextNode.Scalar;
        }

        TextPosition at = entry.Value is TextNode.Scalar ? entry.Key.Start : entry.Value.Start;
        _context.Add(LayoutRules.WrongShape, at, entry.Key.Value, $"\"{entry.Key.Value}\" cannot be {entry.Value.Shape}", expected);
        return null;
    }

    public T? Quantity<T>(string key, QuantityKind<T> kind, Range range)
        where T : struct =>
        Scalar(Find(key), kind.Example) is { } value ? _context.Quantity(value.Value, value.At(0), kind, range) : null;

    public T? RequireQuantity<T>(string key, QuantityKind<T> kind, Range range)
        where T : struct =>
        Scalar(Require(key, kind.Example), kind.Example) is { } value ? _context.Quantity(value.Value, value.At(0), kind, range) : null;

    public double? Number(string key, Range range) =>
        Scalar(Find(key), range.Words) is { } value ? _context.Number(value.Value, value.At(0), range) : null;

    public int? Whole(string key, int least, int most) =>
        Scalar(Find(key), Range.Count(least, most).Words) is { } value ? _context.Whole(value.Value, value.At(0), least, most) : null;

    /// <summary>One of some words, each of which stands for a value.</summary>
    public T? Word<T>(string key, ImmutableArray<(string Word, T Value)> words)
        where T : struct =>
        Scalar(Find(key), Spelling.List([.. words.Select(pair => pair.Word)])) is { } value ? Word(value, words) : null;

    public T? Word<T>(TextNode.Scalar value, ImmutableArray<(string Word, T Value)> words)
        where T : struct
    {
        foreach ((string word, T meaning) in words)
        {
            if (word == value.Value)
            {
                return meaning;
            }
        }

        _context.Add(LayoutRules.UnknownWord, value.At(0), value.Value, $"\"{ProblemList.Shorten(value.Value)}\" is not a word used here",
            _context.Expect(value.Value, words.Select(pair => pair.Word)));
        return null;
    }

    public bool? Flag(string key) => Word<bool>(key, [("true", true), ("false", false)]);

    /// <summary>The items of a list, none where the key is not written.</summary>
    public ImmutableArray<TextNode> List(string key, string expected)
    {
        switch (Find(key))
        {
            case null or { Value: TextNode.Scalar { IsNull: true } }:
                return [];
            case { Value: TextNode.Sequence sequence }:
                return sequence.Items;
            case { } entry:
                _context.WrongShape(entry.Value, $"\"{key}\"", expected);
                return [];
        }
    }

    /// <summary>The named things of a mapping, none where the key is not written. Names that begin with <c>x-</c> are left out.</summary>
    public ImmutableArray<TextEntry> Named(string key, string expected)
    {
        switch (Find(key))
        {
            case null or { Value: TextNode.Scalar { IsNull: true } }:
                return [];
            case { Value: TextNode.Mapping mapping }:
                return mapping.Entries.Any(IsExtension) ? [.. mapping.Entries.Where(entry => !IsExtension(entry))] : mapping.Entries;
            case { } entry:
                _context.WrongShape(entry.Value, $"\"{key}\"", expected);
                return [];
        }
    }

    private static bool IsExtension(TextEntry entry) => entry.Key.Value.StartsWith("x-", StringComparison.Ordinal);

    private void CheckKey(TextNode.Scalar key)
    {
        if (_keys.Holds(key.Value) || key.Value.StartsWith("x-", StringComparison.Ordinal))
        {
            return;
        }

        string shown = ProblemList.Shorten(key.Value);
        _context.Add(LayoutRules.UnknownKey, key.Start, key.Value, $"\"{shown}\" is not a key of {_keys.What}",
            _keys.BelongsIn(key.Value) is { } where ? $"it in {where}" : _context.Expect(key.Value, _keys.Keys));
    }
}
