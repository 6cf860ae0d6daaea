using System.Net;
using System.Net.Sockets;
using System.Text;
using WireUp.Layouts;
using WireUp.Web.Hosting;
using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Security;

/// <summary>Attacks on the server with requests that a browser or a program could send.</summary>
public sealed class RequestTests
{
    [Theory]
    [InlineData("evil.example", "a name pointed at this machine")]
    [InlineData("evil.example:{port}", "the same with the port")]
    [InlineData("127.0.0.1", "without the port")]
    [InlineData("127.0.0.1.evil.example:{port}", "a name that begins like the address")]
    public async Task A_foreign_host_is_refused(string host, string what)
    {
        await using Served served = await Served.StartAsync();
        using HttpRequestMessage request = new(HttpMethod.Get, served.Address) { Headers = { Host = host.Replace("{port}", $"{served.Address.Port}", StringComparison.Ordinal) } };
        Assert.True(await StatusAsync(request) == HttpStatusCode.MisdirectedRequest, what);
    }

    [Theory]
    [InlineData("Origin", "http://evil.example", "/_blazor/negotiate?negotiateVersion=1", "POST")]
    [InlineData("Origin", "null", "/start", "POST")]
    [InlineData("Origin", "http://evil.example", "/_blazor", "GET")]
    [InlineData("Sec-Fetch-Site", "cross-site", "/", "GET")]
    [InlineData("Sec-Fetch-Site", "same-site", "/start", "POST")]
    public async Task What_another_site_makes_a_browser_send_is_refused(string header, string value, string path, string method)
    {
        await using Served served = await Served.StartAsync();
        using HttpRequestMessage request = new(new(method), new Uri(served.Address, path));
        request.Headers.Add(header, value);
        Assert.Equal(HttpStatusCode.Forbidden, await StatusAsync(request));
    }

    [Theory]
    [InlineData("/layouts/../../etc/passwd/text")]
    [InlineData("/layouts/..%2f..%2fetc%2fpasswd/text")]
    [InlineData("/layouts/%2e%2e%5csecret/text")]
    [InlineData("/books/..%2f..%2fsecret-wiring-book.pdf")]
    [InlineData("/books/../secret-wiring-book.pdf")]
    [InlineData("/_content/WireUp.Web/../../wireup.dll")]
    [InlineData("/_content/WireUp.Web/..%2f..%2fwireup.deps.json")]
    public async Task A_path_out_of_the_folder_gives_nothing_of_what_lies_there(string path)
    {
        await using Served served = await Served.StartAsync("balloon-loop");
        string secret = Path.Combine(Path.GetDirectoryName(served.Folder)!, "secret.layout.yaml");
        await File.WriteAllTextAsync(secret, "wireup: 1\nname: hidden-words\n", Cancel);
        try
        {
            string answer = await RawAsync(served, $"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{served.Address.Port}\r\nConnection: close\r\n\r\n");
            Assert.DoesNotContain("hidden-words", answer, StringComparison.Ordinal);
            Assert.DoesNotContain("root:", answer, StringComparison.Ordinal);
            Assert.DoesNotContain("runtimeTarget", answer, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(secret);
        }
    }

    [Theory]
    [InlineData("/start")]
    [InlineData("/hand-in")]
    public async Task A_form_without_the_token_changes_nothing(string path)
    {
        await using Served served = await Served.StartAsync();
        using HttpClient client = new();
        using MultipartFormDataContent form = new() { { new StringContent("forged"), "name" }, { new StringContent("wireup: 1"), "file", "forged.layout.yaml" } };
        using HttpResponseMessage answer = await client.PostAsync(new Uri(served.Address, path), form, Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Empty(Directory.GetFiles(served.Folder));
    }

    [Fact]
    public async Task A_form_with_the_token_starts_and_hands_in_a_layout_and_neither_writes_over_one()
    {
        await using Served served = await Served.StartAsync();
        using FormClient client = await FormClient.OpenAsync(served);
        await client.PostAsync("/start", new() { { new StringContent("attic"), "name" }, { new StringContent("N"), "scale" }, { new StringContent("example"), "with" } });
        await client.PostAsync("/start", new() { { new StringContent("board"), "name" }, { new StringContent("<script>"), "scale" } });
        await client.PostAsync("/hand-in", new() { { new StringContent("wireup: 1\nname: Given\n"), "file", "given.layout.yaml" } });
        await client.PostAsync("/hand-in", new() { { new StringContent("other"), "file", "attic.layout.yaml" } });
        Assert.Equal(["attic.layout.yaml", "board.layout.yaml", "given.layout.yaml"], Directory.GetFiles(served.Folder).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Layout example = LayoutFile.Read(await File.ReadAllTextAsync(served.PathOf("attic.layout.yaml"), Cancel), "attic").Layout!;
        Assert.Equal(("N", 9), (example.Scale, example.Track.Length));
        Assert.Equal("HO", LayoutFile.Read(await File.ReadAllTextAsync(served.PathOf("board.layout.yaml"), Cancel), "board").Blank!.Scale);
    }

    [Theory]
    [InlineData("../outside.layout.yaml")]
    [InlineData("..\\outside.layout.yaml")]
    [InlineData("/tmp/outside.layout.yaml")]
    [InlineData("page.html")]
    [InlineData(".hidden.layout.yaml")]
    public async Task A_file_handed_in_under_a_wrong_name_lands_nowhere_else(string name)
    {
        await using Served served = await Served.StartAsync();
        using FormClient client = await FormClient.OpenAsync(served);
        await client.PostAsync("/hand-in", new() { { new StringContent("wireup: 1"), "file", name } });
        Assert.All(Directory.GetFiles(served.Folder), file => Assert.Equal("outside.layout.yaml", Path.GetFileName(file)));
        Assert.False(File.Exists(Path.Combine(Path.GetDirectoryName(served.Folder)!, "outside.layout.yaml")));
    }

    [Fact]
    public async Task A_file_that_is_too_large_is_refused()
    {
        await using Served served = await Served.StartAsync();
        using FormClient client = await FormClient.OpenAsync(served);
        HttpStatusCode? status;
        try
        {
            status = await client.PostAsync("/hand-in", new() { { new ByteArrayContent(new byte[PageLimits.RequestBytes + 1]), "file", "huge.layout.yaml" } });
        }
        catch (HttpRequestException)
        {
            // The server may close the door while the rest is still being sent.
            status = null;
        }

        Assert.True(status is null or HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.BadRequest, $"{status}");
        Assert.Empty(Directory.GetFiles(served.Folder));
    }

    [Fact]
    public async Task Only_what_is_a_picture_by_its_bytes_is_given_out_as_one_and_only_from_the_folder()
    {
        await using Served served = await Served.StartAsync("balloon-loop");
        byte[] picture = Pencil.Scan();
        await File.WriteAllBytesAsync(served.PathOf("plan.jpg"), picture, Cancel);
        await File.WriteAllTextAsync(served.PathOf("page.png"), "<html><script>1</script></html>", Cancel);
        string outside = Path.Combine(Path.GetDirectoryName(served.Folder)!, Path.GetFileName(served.Folder) + ".png");
        await File.WriteAllBytesAsync(outside, picture, Cancel);
        if (!OperatingSystem.IsWindows()) File.CreateSymbolicLink(served.PathOf("link.png"), outside);
        try
        {
            using HttpClient client = new() { BaseAddress = served.Address };
            using HttpResponseMessage found = await client.GetAsync("/pictures/plan.jpg", Cancel);
            Assert.Equal("image/png", found.Content.Headers.ContentType?.MediaType);
            Assert.Equal("nosniff", Assert.Single(found.Headers.GetValues("X-Content-Type-Options")));
            Assert.Equal(picture, await found.Content.ReadAsByteArrayAsync(Cancel));
            foreach (string other in new[] { "page.png", "link.png", "missing.png", "balloon-loop.layout.yaml", $"..%2f{Path.GetFileName(outside)}", $"%2e%2e%5c{Path.GetFileName(outside)}" })
            {
                using HttpResponseMessage answer = await client.GetAsync($"/pictures/{other}", Cancel);
                Assert.True(answer.StatusCode == HttpStatusCode.NotFound, other);
            }
        }
        finally
        {
            File.Delete(outside);
        }
    }

    [Fact]
    public async Task Only_the_loopback_address_is_listened_to_and_every_answer_carries_the_policy()
    {
        await using Served served = await Served.StartAsync();
        Assert.Equal(IPAddress.Loopback, IPAddress.Parse(served.Address.Host));
        using HttpClient client = new();
        foreach (string path in new[] { "/", "/nothing-here", "/_framework/blazor.web.js" })
        {
            using HttpResponseMessage answer = await client.GetAsync(new Uri(served.Address, path), Cancel);
            string policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
            Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("http", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        }
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static async Task<HttpStatusCode> StatusAsync(HttpRequestMessage request)
    {
        using HttpClient client = new();
        using HttpResponseMessage answer = await client.SendAsync(request, Cancel);
        return answer.StatusCode;
    }

    // As it stands: a client of the framework would tidy the path first.
    private static async Task<string> RawAsync(Served served, string request)
    {
        using TcpClient client = new();
        await client.ConnectAsync(served.Address.Host, served.Address.Port, Cancel);
        await using NetworkStream stream = client.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(request), Cancel);
        using StreamReader reader = new(stream, Encoding.Latin1);
        return await reader.ReadToEndAsync(Cancel);
    }
}
